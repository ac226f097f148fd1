package limnostat.season;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.ScanOutcome;

/**
 * Whether an alarm tells people that chlorine may be gone. Only this class says which alarms do.
 */
final class LowChlorineAlarm {
  /** Chlorine is low, nothing feeds it, or its level is unknown. */
  private static final Set<Cause> CAUSES =
      EnumSet.of(
          Cause.ORP_FAILURE,
          Cause.BLIND_FEED_LOW,
          Cause.BLIND_FEED_SPENT,
          Cause.CHLORINE_DOUBTFUL,
          Cause.CHLORINE_USED_UP,
          Cause.STARVED_BY_ORP,
          Cause.ORP_FALLING,
          Cause.NO_RESPONSE,
          Cause.ESTIMATE_LOST,
          Cause.ESTIMATE_UNSURE,
          Cause.OUTPUT_TOO_SMALL,
          Cause.CELL_CURRENT_MISSING,
          Cause.TEST_DUE,
          Cause.TEST_OVERDUE);

  private LowChlorineAlarm() {}

  /** Whether such an alarm of high or critical priority is active. */
  static boolean calls(ScanOutcome outcome) {
    for (Map.Entry<Cause, Alarms.Entry> entry : outcome.state().alarms().entrySet()) {
      if (CAUSES.contains(entry.getKey()) && high(entry.getKey()) && stands(entry.getValue())) {
        return true;
      }
    }
    return false;
  }

  static boolean high(Cause cause) {
    return cause.priority().compareTo(Priority.HIGH) >= 0;
  }

  /** An alarm that has returned says nothing about the present water. */
  static boolean stands(Alarms.Entry entry) {
    return switch (entry.state()) {
      case UNACKNOWLEDGED, ACKNOWLEDGED, LATCHED, LATCHED_UNACKNOWLEDGED -> true;
      case NORMAL, RETURNED_UNACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE -> false;
    };
  }
}
