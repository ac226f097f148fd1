package limnostat.alarm;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.safety.Cause;
import limnostat.safety.Priority;

/** The alarms: reads the causes, drives no output. Every cause with a priority is an alarm. */
public final class Alarms {
  /**
   * A condition must last this long to be an alarm, s (engineering judgement: a short dropout is
   * held over).
   */
  private static final double ON_DELAY_S = 60;

  /** And be gone this long to have returned, s: a condition that flickers is one alarm. */
  private static final double OFF_DELAY_S = 60;

  private Alarms() {}

  /**
   * What is remembered of one alarm.
   *
   * @param pendingS for how long the condition has differed from what the state says, s
   */
  public record Entry(AlarmState state, double pendingS) {
    static final Entry NORMAL = new Entry(AlarmState.NORMAL, 0);
  }

  /** One change of state. */
  public record Transition(Cause alarm, AlarmState from, AlarmState to) {}

  public record Result(Map<Cause, Entry> entries, List<Transition> transitions) {}

  /**
   * @param entries the alarms that are not at rest; the others are normal
   */
  public static Result step(Map<Cause, Entry> entries, Set<Cause> active, double elapsedS) {
    if (entries.isEmpty() && active.isEmpty()) {
      return new Result(entries, List.of());
    }
    Map<Cause, Entry> next = new EnumMap<>(Cause.class);
    List<Transition> transitions = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      boolean atRest = !entries.containsKey(cause) && !active.contains(cause);
      if (atRest || cause.priority() == Priority.NONE) {
        continue;
      }
      Entry before = entries.getOrDefault(cause, Entry.NORMAL);
      Entry after = step(cause, before, active.contains(cause), elapsedS);
      if (after.state() != before.state()) {
        transitions.add(new Transition(cause, before.state(), after.state()));
      }
      if (!after.equals(Entry.NORMAL)) {
        next.put(cause, after);
      }
    }
    return new Result(next, transitions);
  }

  private static Entry step(Cause cause, Entry entry, boolean active, double elapsedS) {
    boolean raised =
        entry.state() == AlarmState.UNACKNOWLEDGED || entry.state() == AlarmState.ACKNOWLEDGED;
    if (active == raised) {
      return new Entry(entry.state(), 0);
    }
    double pendingS = entry.pendingS() + elapsedS;
    if (pendingS < (active ? onDelayS(cause) : OFF_DELAY_S)) {
      return new Entry(entry.state(), pendingS);
    }
    if (active) {
      return new Entry(AlarmState.UNACKNOWLEDGED, 0);
    }
    return entry.state() == AlarmState.ACKNOWLEDGED
        ? Entry.NORMAL
        : new Entry(AlarmState.RETURNED_UNACKNOWLEDGED, 0);
  }

  /**
   * What is critical is raised at once, and what the process may not live long enough to tell; the
   * rest may be a passing thing.
   */
  private static double onDelayS(Cause cause) {
    boolean atOnce = cause.priority() == Priority.CRITICAL || cause == Cause.RESTART_LOOP;
    return atOnce ? 0 : ON_DELAY_S;
  }

  /** Whether there is something to acknowledge. */
  public static boolean acknowledgeable(Map<Cause, Entry> entries, Cause cause) {
    AlarmState state = entries.getOrDefault(cause, Entry.NORMAL).state();
    return state == AlarmState.UNACKNOWLEDGED || state == AlarmState.RETURNED_UNACKNOWLEDGED;
  }

  /** Acknowledges; call only where {@link #acknowledgeable} holds. */
  public static Result acknowledge(Map<Cause, Entry> entries, Cause cause) {
    AlarmState from = entries.get(cause).state();
    AlarmState to = from == AlarmState.UNACKNOWLEDGED ? AlarmState.ACKNOWLEDGED : AlarmState.NORMAL;
    Map<Cause, Entry> next = new EnumMap<>(Cause.class);
    next.putAll(entries);
    if (to == AlarmState.NORMAL) {
      next.remove(cause);
    } else {
      next.put(cause, new Entry(to, 0));
    }
    return new Result(next, List.of(new Transition(cause, from, to)));
  }
}
