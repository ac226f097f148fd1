package limnostat.alarm;

/**
 * A person has put an alarm aside until a time. It ends by running time, as everything here does,
 * and by a trusted wall clock where that is earlier: an outage that nobody can prove must not keep
 * an alarm silent for longer than a person asked for.
 *
 * @param leftS time left, s; 0: not shelved
 * @param untilUnixS when it ends by the wall clock, Unix s; infinite: the clock was not trusted
 */
public record Shelf(double leftS, double untilUnixS) {
  public static final Shelf NONE = new Shelf(0, Double.POSITIVE_INFINITY);

  /** A shelf read back from a ledger is checked as a stranger's would be. */
  public Shelf {
    if (!(leftS >= 0) || Double.isInfinite(leftS)) {
      throw new IllegalArgumentException("a shelf's time is finite and positive, is " + leftS);
    }
  }

  public boolean running() {
    return leftS > 0;
  }

  static Shelf of(double seconds, double unixTimeS, boolean clockTrusted) {
    return new Shelf(seconds, clockTrusted ? unixTimeS + seconds : Double.POSITIVE_INFINITY);
  }

  Shelf after(double elapsedS, double unixTimeS, boolean clockTrusted) {
    boolean over = elapsedS >= leftS || (clockTrusted && unixTimeS >= untilUnixS);
    return over ? NONE : new Shelf(leftS - elapsedS, untilUnixS);
  }

  /** Within a bound that may have become narrower. */
  Shelf within(double maxS) {
    return leftS > maxS ? new Shelf(maxS, untilUnixS) : this;
  }
}
