package limnostat.scan;

import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.safety.Cause;

/** Something that happened on a scan; for the journal, the dashboards and the log. */
public sealed interface ScanEvent {

  record AlarmChanged(Cause alarm, AlarmState from, AlarmState to) implements ScanEvent {}

  record ModeChanged(Mode from, Mode to) implements ScanEvent {}

  record Accepted(Command.Request request) implements ScanEvent {}

  record Refused(Command.Request request, String reason) implements ScanEvent {}

  /**
   * A cause began to hold or limit an output, or ceased to.
   *
   * @param began false: it ceased
   */
  record Tripped(Cause cause, boolean began) implements ScanEvent {}

  /**
   * The scan was not called for longer than a gap.
   *
   * @param elapsedS for how long, s
   */
  record Interrupted(double elapsedS) implements ScanEvent {}
}
