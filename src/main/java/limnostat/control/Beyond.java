package limnostat.control;

/**
 * What was fed on one word alone: the electrode's, beyond the demand that doses and tests account
 * for, or that of doses and tests, beyond what the electrode calls for. Either may be right, where
 * chlorine went within hours or the electrode creeps, or wrong. So it has a budget: even where none
 * of it was wanted free chlorine stays within what that allows.
 *
 * @param fedMgL so far, mg/L of the pool; a test of free chlorine sets it to 0
 */
public record Beyond(double fedMgL) {
  public static final Beyond NONE = new Beyond(0);

  /** The budget comes back in so long, s (engineering judgement). */
  private static final double BACK_S = 3 * 86_400.0;

  /** What is left of it may be fed in so long, h (engineering judgement). */
  private static final double SPENDS_H = 6;

  /** The ration falls as it is used up, so its end is never reached: so much of it is all. */
  private static final double SPENT = 0.8;

  /**
   * @param fedMgL what went in since the last scan, mg/L of the pool by the label
   * @param accountedMgL what both words account for in that time, mg/L
   * @param elapsedS time in which some of the budget comes back, s
   */
  Beyond step(double fedMgL, double accountedMgL, double budgetMgL, double elapsedS) {
    double more = Math.max(0, fedMgL - accountedMgL);
    double back = more > 0 ? 0 : budgetMgL * elapsedS / BACK_S;
    return new Beyond(Math.min(budgetMgL, Math.max(0, this.fedMgL + more - back)));
  }

  /** Whether next to nothing of the budget is left. */
  boolean spent(double budgetMgL) {
    return fedMgL >= SPENT * budgetMgL;
  }

  /** The most that may be fed beyond what both account for, duty. */
  double dutyMax(double budgetMgL, double riseMgLH) {
    return Math.max(0, budgetMgL - fedMgL) / SPENDS_H / riseMgLH;
  }
}
