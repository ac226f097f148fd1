package limnostat.alarm;

import java.util.Set;
import limnostat.safety.Cause;

/** What the interlocks say of an alarm's cause. */
enum Condition {
  CLEAR,
  ACTIVE,
  /** The cause is gone, but its effect stays until a person's reset. */
  LATCHED;

  static Condition of(Cause cause, Set<Cause> active, Set<Cause> present) {
    if (!active.contains(cause)) {
      return CLEAR;
    }
    return cause.latching() && !present.contains(cause) ? LATCHED : ACTIVE;
  }
}
