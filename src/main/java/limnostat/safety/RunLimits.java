package limnostat.safety;

/**
 * How often the program may restart before it no longer trusts itself.
 *
 * @param restartsMax process ends within the window that are still tolerated; an orderly stop
 *     counts a quarter
 * @param windowS length of the window, and the calm time after which the inhibit ends, s
 */
public record RunLimits(int restartsMax, double windowS) {
  /** The defaults (engineering judgement: one bad start after an update is not a loop). */
  public static final RunLimits USUAL = new RunLimits(4, 1800);
}
