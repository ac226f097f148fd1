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

/** Something that happened on a scan; for the journal, the dashboards and the log. */
public sealed interface ScanEvent {

  /**
   * Whether it must survive a power cut a second later, and reach the broker however long it is
   * away: what a person decided, alarms, a day's total.
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
   * @param detail what the alarm has to say beyond its advice, where it has: a sentence or two with
   *     numbers
   * @param firstOut whether it was the first of those that hold or limit an output
   * @param heldBack whether it is for the journal only, as there is a flood of alarms
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
   * More alarms came than a person can take in, or that is over: low ones are held back meanwhile.
   *
   * @param began false: it is over
   */
  record AlarmFlood(boolean began) implements ScanEvent {}

  /**
   * What was set at run time has another value.
   *
   * @param name the set point, with its unit
   * @param origin who or what changed it: where the command came from, or {@code file}
   */
  record SetpointChanged(String name, double from, double to, String origin) implements ScanEvent {}

  /** A day of the dose account is over. */
  record DayEnded(DoseTotals totals) implements ScanEvent {}

  /** A person entered something that was put into the pool, or let out of it. */
  record AdditionEntered(Addition addition) implements ScanEvent {}

  /** It was a mistake, and is taken back. */
  record AdditionUndone(Addition addition) implements ScanEvent {}

  /** A test found chlorine that nobody fed or entered: was something added by hand? */
  record AdditionSuspected(UnfedChlorine found) implements ScanEvent {
    /** What a person is asked. */
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

  /** The control law stands on another level. */
  record ControlLevelChanged(ControlLevel from, ControlLevel to) implements ScanEvent {}

  /**
   * @param remark what the sender should know all the same, where there is something; a clause for
   *     people
   * @param listed what was asked for, where it was a list
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
   * The very same command came again; it is answered as the first time, and was not applied again.
   */
  record AnsweredAgain(Command.Request request, Answers.Answer first) implements ScanEvent {}

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
