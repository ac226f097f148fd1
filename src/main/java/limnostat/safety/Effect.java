package limnostat.safety;

/**
 * What a cause does to an output, in order of severity. Of several effects the most severe applies,
 * whatever their order.
 */
public enum Effect {
  NONE,
  /** At most the fallback: the learned demand, and no more than the demand while all was well. */
  LIMIT,
  /** Off. */
  INHIBIT
}
