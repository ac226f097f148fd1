package limnostat.ledger;

import java.util.Objects;

/**
 * When something happened.
 *
 * @param monotonicS monotonic time, s; comparable only within one bootId
 * @param unixTimeS wall clock, Unix s; only a label, wrong while the clock is not trusted
 * @param clockTrusted whether the wall clock was known to be right
 * @param bootId id of the machine's boot that monotonicS belongs to
 */
public record Moment(double monotonicS, double unixTimeS, boolean clockTrusted, String bootId) {
  public Moment {
    // SQLite would turn NaN into NULL and refuse it, too late and at every retry.
    if (!Double.isFinite(monotonicS) || !Double.isFinite(unixTimeS)) {
      throw new IllegalArgumentException("time not finite: " + monotonicS + " s, " + unixTimeS);
    }
    Objects.requireNonNull(bootId, "bootId");
  }
}
