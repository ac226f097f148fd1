package limnostat.alarm;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Priority;

/**
 * Which alarm came first (the first-out of ISA-18.1, from memory). If several alarms inhibit or
 * limit the same output, the others are often consequences of the first. An alarm is marked when
 * its cause becomes active, before any delay of the alarm. The mark stays until all of the output's
 * alarms are back to normal. Several alarms on one scan share the mark.
 *
 * @param chlorine first of those that inhibit or limit chlorine; none while all are normal
 * @param acid the same for acid
 */
public record FirstOut(Set<Cause> chlorine, Set<Cause> acid) {
  public static final FirstOut NONE = new FirstOut(Set.of(), Set.of());

  /**
   * It stands in for {@link Cause#NO_FLOW}, which has no alarm of its own because it occurs every
   * night.
   */
  private static final Cause OF_FLOW = Cause.FLOW_MISSING;

  private static final Map<Output, Set<Cause>> GROUPS = groups();

  private static Map<Output, Set<Cause>> groups() {
    Map<Output, Set<Cause>> groups = new EnumMap<>(Output.class);
    for (Output output : Output.values()) {
      EnumSet<Cause> group = EnumSet.noneOf(Cause.class);
      for (Cause cause : Cause.values()) {
        if (cause.priority() != Priority.NONE
            && (cause.on(output) != Effect.NONE || cause == OF_FLOW)) {
          group.add(cause);
        }
      }
      groups.put(output, group);
    }
    return groups;
  }

  public boolean marks(Cause cause) {
    return chlorine.contains(cause) || acid.contains(cause);
  }

  /**
   * @param counting active causes that are not suppressed
   * @param alarms the alarms that differ from normal, as they are after this scan
   */
  FirstOut step(Set<Cause> counting, Map<Cause, Alarms.Entry> alarms) {
    return new FirstOut(
        step(GROUPS.get(Output.CHLORINE), chlorine, counting, alarms),
        step(GROUPS.get(Output.ACID), acid, counting, alarms));
  }

  private static Set<Cause> step(
      Set<Cause> group, Set<Cause> first, Set<Cause> counting, Map<Cause, Alarms.Entry> alarms) {
    EnumSet<Cause> there = EnumSet.noneOf(Cause.class);
    boolean standing = false;
    for (Cause cause : group) {
      if (counting.contains(cause)) {
        there.add(cause);
      }
      Alarms.Entry alarm = alarms.get(cause);
      standing |= alarm != null && alarm.under() != AlarmState.NORMAL;
    }
    if (!first.isEmpty() && (standing || !there.isEmpty())) {
      return first;
    }
    return there;
  }
}
