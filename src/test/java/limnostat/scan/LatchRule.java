package limnostat.scan;

import java.util.EnumSet;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Cause;
import limnostat.safety.Effect;

/**
 * S7: what is latched stays until an accepted reset, and no reset is accepted while the cell
 * carries current unasked, or nobody can tell. And the latch itself: unasked current trips it.
 */
final class LatchRule implements Rule {
  /** As the threshold and delay in the matrix. */
  private static final double CURRENT_A = 0.3;

  private static final double DELAY_S = 15;

  private final Set<Cause> latched = EnumSet.noneOf(Cause.class);
  private double unaskedS = -1;

  /** Current unasked, or once latched not known to be gone, on the scan before. */
  private boolean there;

  /** The same of current above the installer's limit. */
  private boolean over;

  @Override
  public void check(Seen seen) {
    if (seen.start() == Seen.Start.FIRST || seen.start() == Seen.Start.FORGOTTEN) {
      latched.clear();
      there = false;
      over = false;
    }
    for (ScanEvent event : seen.out().events()) {
      if (event instanceof ScanEvent.Accepted accepted
          && accepted.request().command() instanceof Command.Reset reset) {
        Cause cause = Cause.ofId(reset.interlock()).orElseThrow();
        if (cause == Cause.RESTART_LOOP) {
          continue; // no latch: it ends by itself too
        }
        Rule.require(latched.remove(cause), () -> "S7: reset of what is not latched, " + cause);
        Rule.require(
            !(cause == Cause.CELL_CURRENT_UNEXPECTED && there)
                && !(cause == Cause.CELL_OVER_CURRENT && over),
            () -> "S7: reset accepted with the cause present, " + cause);
      }
    }
    Set<Cause> active = seen.out().permission().active();
    Rule.require(
        active.containsAll(latched), () -> "S7: latched " + latched + ", active " + active);
    observe(seen);
    Rule.require(
        unaskedS < DELAY_S + ROUNDING || active.contains(Cause.CELL_CURRENT_UNEXPECTED),
        () -> "S7: current unasked for " + unaskedS + " s and no trip");
    active.stream().filter(Cause::latching).forEach(latched::add);
    for (Cause cause : latched) {
      for (Output output : Output.values()) {
        Rule.require(
            !seen.on(output) || cause.on(output) != Effect.HOLD,
            () -> "S7: " + output + " on under " + cause);
      }
    }
  }

  private void observe(Seen seen) {
    if (!seen.settings().measure().fitted().contains(Role.CELL_A)) {
      return;
    }
    boolean commanded = !seen.start().newProcess() && seen.before().chlorine().modulator().on();
    boolean read =
        seen.in().signals().of(Role.CELL_A) instanceof Signal.Analog a
            && Double.isFinite(a.value());
    boolean unasked =
        seen.in().signals().of(Role.CELL_A) instanceof Signal.Analog a
            && a.value() > CURRENT_A
            && !commanded;
    there = read ? unasked : there;
    double mostA = seen.settings().limits().process().cellMaxA().orElse(Double.POSITIVE_INFINITY);
    over =
        read
            ? seen.in().signals().of(Role.CELL_A) instanceof Signal.Analog a && a.value() > mostA
            : over;
    boolean continues = unaskedS >= 0 && !seen.start().newProcess();
    // Nobody looked during an interruption, so it does not count towards the delay.
    double sawS = seen.interrupted() ? 0 : seen.in().elapsedS();
    unaskedS = !read || !unasked ? -1 : continues ? unaskedS + sawS : 0;
  }
}
