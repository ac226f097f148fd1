package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.safety.Priority;

/**
 * S11: cell current that nobody asked for is a critical alarm and stops everything; none where
 * there should be some is an alarm, and current above the installer's limit stops chlorine. Delays
 * as in the matrix.
 */
final class CurrentRule implements Rule {
  private static final double UNASKED_S = 15;
  private static final double MISSING_S = 360;
  private static final double OVER_S = 10;

  private final CellWatch cell = new CellWatch();

  @Override
  public void check(Seen seen) {
    cell.look(seen);
    if (cell.unaskedS() >= UNASKED_S + ROUNDING) {
      told(seen, Cause.CELL_CURRENT_UNEXPECTED, "current unasked");
      Rule.require(
          Cause.CELL_CURRENT_UNEXPECTED.priority() == Priority.CRITICAL,
          () -> "S11: current unasked is no critical alarm");
      Rule.require(
          !seen.on(Output.CHLORINE) && !seen.on(Output.ACID),
          () -> "S11: " + seen.out().outputs() + " with current unasked");
    }
    if (cell.missingS() >= MISSING_S + ROUNDING) {
      told(seen, Cause.CELL_CURRENT_MISSING, "no current");
    }
    if (cell.overS() >= OVER_S + ROUNDING) {
      Rule.require(
          !seen.on(Output.CHLORINE),
          () -> "S11: chlorine on for " + cell.overS() + " s over-current");
    }
  }

  /** The cause counts, and its alarm is not at rest: it calls, or is silenced by a person. */
  private static void told(Seen seen, Cause cause, String what) {
    Alarms.Entry entry = seen.out().state().alarms().get(cause);
    Rule.require(
        seen.out().permission().active().contains(cause) && entry != null,
        () -> "S11: " + what + ", and no alarm");
  }
}
