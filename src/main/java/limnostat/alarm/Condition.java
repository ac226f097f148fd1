package limnostat.alarm;

import java.util.Set;
import limnostat.safety.Cause;

/** What the interlocks report about an alarm's cause. */
enum Condition {
  CLEAR,
  ACTIVE,
  /** The condition is gone, but the effect stays until a manual reset. */
  LATCHED;

  static Condition of(Cause cause, Set<Cause> active, Set<Cause> present) {
    if (!active.contains(cause)) {
      return CLEAR;
    }
    return cause.latching() && !present.contains(cause) ? LATCHED : ACTIVE;
  }
}
