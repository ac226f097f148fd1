package limnostat.alarm;

import static limnostat.alarm.AlarmState.ACKNOWLEDGED;
import static limnostat.alarm.AlarmState.LATCHED;
import static limnostat.alarm.AlarmState.LATCHED_UNACKNOWLEDGED;
import static limnostat.alarm.AlarmState.NORMAL;
import static limnostat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static limnostat.alarm.AlarmState.UNACKNOWLEDGED;

/**
 * The state diagram of ISA-18.2 without its three silenced states, which are layered over these.
 * Each function holds the transitions of one event.
 */
final class Transitions {
  private Transitions() {}

  /** The state that follows once a condition has lasted for its delay. */
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

  /** A person acknowledges the alarm. */
  static AlarmState acknowledged(AlarmState state) {
    return switch (state) {
      case UNACKNOWLEDGED -> ACKNOWLEDGED;
      case RETURNED_UNACKNOWLEDGED -> NORMAL;
      case LATCHED_UNACKNOWLEDGED -> LATCHED;
      default -> state;
    };
  }

  /** A shelf has ended: an active alarm is announced again, even if it was acknowledged before. */
  static AlarmState announced(AlarmState state) {
    return switch (state) {
      case ACKNOWLEDGED -> UNACKNOWLEDGED;
      case LATCHED -> LATCHED_UNACKNOWLEDGED;
      default -> state;
    };
  }

  /** Whether a change of state alerts a person. */
  static boolean calls(AlarmState from, AlarmState to) {
    return from != to
        && (to == UNACKNOWLEDGED || (to == LATCHED_UNACKNOWLEDGED && from != UNACKNOWLEDGED));
  }
}
