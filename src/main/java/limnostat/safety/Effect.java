package limnostat.safety;

/**
 * What a cause does to an output, in order of severity: of several the most severe holds, whatever
 * their order.
 */
public enum Effect {
  NONE,
  /** At most the fallback: the learned demand, and no more than was demanded while all was well. */
  LIMIT,
  /** Off. */
  INHIBIT
}
