package limnostat.alarm;

import static limnostat.alarm.AlarmState.ACKNOWLEDGED;
import static limnostat.alarm.AlarmState.LATCHED;
import static limnostat.alarm.AlarmState.LATCHED_UNACKNOWLEDGED;
import static limnostat.alarm.AlarmState.NORMAL;
import static limnostat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static limnostat.alarm.AlarmState.UNACKNOWLEDGED;

/**
 * The state diagram of ISA-18.2 without its three states of silence, which lie over these: each
 * function is the arrows of one event.
 */
final class Transitions {
  private Transitions() {}

  /** Where a condition that has lasted its delay leads to. */
  static AlarmState settled(AlarmState state, Condition condition) {
    return switch (condition) {
      case ACTIVE -> state == ACKNOWLEDGED ? ACKNOWLEDGED : UNACKNOWLEDGED;
      case LATCHED ->
          state == ACKNOWLEDGED || state == AlarmState.LATCHED ? LATCHED : LATCHED_UNACKNOWLEDGED;
      case CLEAR ->
          switch (state) {
            case UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED ->
                RETURNED_UNACKNOWLEDGED;
            default -> NORMAL;
          };
    };
  }

  /** A person has seen it. */
  static AlarmState acknowledged(AlarmState state) {
    return switch (state) {
      case UNACKNOWLEDGED -> ACKNOWLEDGED;
      case RETURNED_UNACKNOWLEDGED -> NORMAL;
      case LATCHED_UNACKNOWLEDGED -> LATCHED;
      default -> state;
    };
  }

  /** A shelf has ended: what stands calls again, though it was seen before. */
  static AlarmState announced(AlarmState state) {
    return switch (state) {
      case ACKNOWLEDGED -> UNACKNOWLEDGED;
      case LATCHED -> LATCHED_UNACKNOWLEDGED;
      default -> state;
    };
  }

  /** Whether a change of state calls a person. */
  static boolean calls(AlarmState from, AlarmState to) {
    return from != to
        && (to == UNACKNOWLEDGED || (to == LATCHED_UNACKNOWLEDGED && from != UNACKNOWLEDGED));
  }
}
