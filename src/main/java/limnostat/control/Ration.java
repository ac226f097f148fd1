package limnostat.control;

/**
 * How the blind budget is rationed. The daily feed is never more than what would last for some
 * days, so it falls as the budget is used up and never stops abruptly. Amounts are mg/L of the
 * pool.
 */
public final class Ration {
  /** What is left would last this many days at the present rate (engineering judgement). */
  private static final double DAYS = 2.5;

  private Ration() {}

  /** Most that may be fed in a day, mg/L per day. */
  static double mgLDay(double leftMgL) {
    return leftMgL / DAYS;
  }

  /**
   * For how long feeding goes on, days. First the demand is fed, while it is less than the ration.
   * After that, what is left decays as e to the power of −t/τ.
   *
   * @param endMgL what is left at the end, more than 0, mg/L
   */
  public static double lastsDays(double leftMgL, double endMgL, double demandMgLDay) {
    if (leftMgL <= endMgL) {
      return 0;
    }
    double rationedMgL = Math.max(endMgL, Math.min(leftMgL, demandMgLDay * DAYS));
    double freeDays = leftMgL > rationedMgL ? (leftMgL - rationedMgL) / demandMgLDay : 0;
    return freeDays + DAYS * StrictMath.log(rationedMgL / endMgL);
  }
}
