package limnostat.control;

/**
 * How the blind budget is given out: at any time no more a day than what would last for some days,
 * so that it falls as it is used up and never ends at once. Amounts are mg/L of the pool.
 */
public final class Ration {
  /** So many days what is left would last at the present rate (engineering judgement). */
  private static final double DAYS = 2.5;

  private Ration() {}

  /** Most that may be given in a day, mg/L a day. */
  static double mgLDay(double leftMgL) {
    return leftMgL / DAYS;
  }

  /**
   * For how long something is given yet, days: first the demand, while that is less than the
   * ration, then e to the power of −t/τ of what is left.
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
