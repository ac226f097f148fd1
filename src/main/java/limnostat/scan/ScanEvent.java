package limnostat.scan;

import java.util.Locale;
import java.util.Optional;
import limnostat.account.DoseTotals;
import limnostat.alarm.AlarmState;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.estimate.Addition;
import limnostat.estimate.Additions;
import limnostat.estimate.UnfedChlorine;
import limnostat.safety.Cause;

/** Something that happened on a scan, for the journal, the dashboards and the log. */
public sealed interface ScanEvent {

  /**
   * Whether the event must survive a power cut a second later, and reach the broker however long it
   * is unavailable: people's decisions, alarms, a day's total.
   */
  default boolean durable() {
    return this instanceof Accepted
        || this instanceof SetpointChanged
        || this instanceof AlarmChanged
        || this instanceof ModeChanged
        || this instanceof DayEnded
        || this instanceof AdditionEntered
        || this instanceof AdditionUndone
        || this instanceof AdditionSuspected
        || (this instanceof Tripped tripped && tripped.cause().latching());
  }

  /**
   * @param detail what the alarm reports beyond its advice, if anything: a sentence or two with
   *     numbers
   * @param firstOut whether it was the first of those that inhibit or limit an output
   * @param heldBack whether it is for the journal only, because of a flood of alarms
   */
  record AlarmChanged(
      Cause alarm,
      AlarmState from,
      AlarmState to,
      Optional<String> detail,
      boolean firstOut,
      boolean heldBack)
      implements ScanEvent {
    public AlarmChanged(Cause alarm, AlarmState from, AlarmState to, Optional<String> detail) {
      this(alarm, from, to, detail, false, false);
    }

    public AlarmChanged(Cause alarm, AlarmState from, AlarmState to) {
      this(alarm, from, to, Optional.empty());
    }
  }

  /**
   * A flood of more alarms than a person can take in began or ended. Low-priority alarms are held
   * back during a flood.
   *
   * @param began false: it ended
   */
  record AlarmFlood(boolean began) implements ScanEvent {}

  /**
   * A value that is set at run time has changed.
   *
   * @param name the setpoint, with its unit
   * @param origin who or what changed it: where the command came from, or {@code file}
   */
  record SetpointChanged(String name, double from, double to, String origin) implements ScanEvent {}

  /** A day of the dose totals has ended. */
  record DayEnded(DoseTotals totals) implements ScanEvent {}

  /** A person entered something that was put into the pool, or drained from it. */
  record AdditionEntered(Addition addition) implements ScanEvent {}

  /** An addition was a mistake and was undone. */
  record AdditionUndone(Addition addition) implements ScanEvent {}

  /** A test found chlorine that nobody fed or entered: was something added by hand? */
  record AdditionSuspected(UnfedChlorine found) implements ScanEvent {
    /** The question to the person. */
    public String text() {
      return String.format(
          Locale.ROOT,
          "the test reads %.1f mg/L of free chlorine where what was fed explains %.1f: was something"
              + " added by hand? enter it as an addition",
          found.readMgL(),
          found.expectedMgL());
    }
  }

  record ModeChanged(Mode from, Mode to) implements ScanEvent {}

  /** The control law changed to another level. */
  record ControlLevelChanged(ControlLevel from, ControlLevel to) implements ScanEvent {}

  /**
   * @param remark what the sender should know even so, if anything; a clause for people
   * @param listed the requested list, if the command asked for one
   */
  record Accepted(Command.Request request, Optional<String> remark, Optional<Additions> listed)
      implements ScanEvent {
    public Accepted(Command.Request request, Optional<String> remark) {
      this(request, remark, Optional.empty());
    }

    public Accepted(Command.Request request) {
      this(request, Optional.empty());
    }
  }

  record Refused(Command.Request request, String reason) implements ScanEvent {}

  /**
   * The same command arrived again. It is answered as it was the first time, and was not applied
   * again.
   */
  record AnsweredAgain(Command.Request request, Answers.Answer first) implements ScanEvent {}

  /**
   * A cause became active or ended.
   *
   * @param began false: it ended
   */
  record Tripped(Cause cause, boolean began) implements ScanEvent {}

  /**
   * The time between two scans was long enough to count as a gap.
   *
   * @param elapsedS time between the scans, s
   */
  record Interrupted(double elapsedS) implements ScanEvent {}
}
