package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.alarm.Alarms;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Cause;

/**
 * S10, its flat sign: while raw ORP stands within a millivolt, no more chlorine is fed than the
 * stated amount and what goes in within an hour and a little more; then it is held, with an alarm
 * that says why. The other sign takes days: {@code ResponseOnPoolsTest}.
 */
final class ResponseRule implements Rule {
  /** Samples so near to each other have means that are nearer, mV. */
  private static final double FLAT_MV = 1;

  /**
   * The half-hour means do not begin with the flatness: one may be half of what was before, the
   * next is the first, and the last has to be whole. And a scan each, s.
   */
  private static final double LATE_S = 2 * (1800 + 60);

  private double least = Double.POSITIVE_INFINITY;
  private double most = Double.NEGATIVE_INFINITY;
  private double fedMgL;

  @Override
  public void check(Seen seen) {
    double perMgL =
        seen.settings().chlorine().caps().ratePerH() / 3600 / seen.settings().estimate().volumeM3();
    boolean fresh = seen.out().measured().orpMv().fresh();
    boolean raised = seen.out().state().control().superchlorination().running();
    boolean reset =
        seen.out().events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.Accepted a
                        && a.request().command() instanceof Command.Reset);
    boolean tripped = seen.out().permission().active().contains(Cause.NO_RESPONSE);
    if (tripped) {
      held(seen);
    }
    // A mean runs on over an interruption and what is not fresh: begin anew, and judge less.
    if (seen.interrupted() || !fresh || raised || reset || tripped) {
      restart();
      return;
    }
    double mv = ((Signal.Analog) seen.in().signals().of(Role.ORP_MV)).value();
    if (Math.max(most, mv) - Math.min(least, mv) > FLAT_MV) {
      restart();
    } else if (seen.wasOn(Output.CHLORINE)) {
      fedMgL += perMgL * seen.driven().chlorine() * (seen.drivenUntilS() - seen.lastS());
    }
    least = Math.min(least, mv);
    most = Math.max(most, mv);
    double limit = seen.settings().limits().process().noResponseMgL();
    Rule.require(
        fedMgL <= limit + perMgL * LATE_S + ROUNDING,
        () -> "S10: fed " + fedMgL + " mg/L with no response, limit " + limit);
  }

  private void restart() {
    least = Double.POSITIVE_INFINITY;
    most = Double.NEGATIVE_INFINITY;
    fedMgL = 0;
  }

  private static void held(Seen seen) {
    Alarms.Entry entry = seen.out().state().alarms().get(Cause.NO_RESPONSE);
    Rule.require(!seen.on(Output.CHLORINE), () -> "S10: chlorine on, no response");
    Rule.require(entry != null, () -> "S10: no response, and no alarm");
  }
}
