package limnostat.scan;

import java.util.Optional;
import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.control.Rung;
import limnostat.safety.Cause;

/** Something that happened on a scan; for the journal, the dashboards and the log. */
public sealed interface ScanEvent {

  /**
   * @param detail what the alarm has to say beyond its advice, where it has: a sentence or two with
   *     numbers
   */
  record AlarmChanged(Cause alarm, AlarmState from, AlarmState to, Optional<String> detail)
      implements ScanEvent {
    public AlarmChanged(Cause alarm, AlarmState from, AlarmState to) {
      this(alarm, from, to, Optional.empty());
    }
  }

  record ModeChanged(Mode from, Mode to) implements ScanEvent {}

  /** The control law stands on another rung. */
  record RungChanged(Rung from, Rung to) implements ScanEvent {}

  /**
   * @param remark what the sender should know all the same, where there is something; a clause for
   *     people
   */
  record Accepted(Command.Request request, Optional<String> remark) implements ScanEvent {
    public Accepted(Command.Request request) {
      this(request, Optional.empty());
    }
  }

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
