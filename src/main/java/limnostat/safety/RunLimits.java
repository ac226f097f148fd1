package limnostat.safety;

/**
 * How often the program may end and begin again before it trusts itself no more.
 *
 * @param restartsMax ends of the process within the window that still pass; an orderly stop counts
 *     a quarter
 * @param windowS length of the window, and the calm time after which the hold is over, s
 */
public record RunLimits(int restartsMax, double windowS) {
  /** The defaults (engineering judgement: one bad start after an update is no loop). */
  public static final RunLimits USUAL = new RunLimits(4, 1800);
}
