package limnostat.season;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.ScanOutcome;

/** Whether an alarm tells people that chlorine may be gone: the one place that says which do. */
final class LowChlorineAlarm {
  /** Chlorine is low, nothing gives it, or nobody knows how much there is. */
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

  /** Whether one of high or critical priority stands. */
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

  /** One that has returned says nothing of the water as it is. */
  static boolean stands(Alarms.Entry entry) {
    return switch (entry.state()) {
      case UNACKNOWLEDGED, ACKNOWLEDGED, LATCHED, LATCHED_UNACKNOWLEDGED -> true;
      case NORMAL, RETURNED_UNACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE -> false;
    };
  }
}
