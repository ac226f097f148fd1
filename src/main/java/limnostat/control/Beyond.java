package limnostat.control;

/**
 * What was fed on one source's evidence alone. Either the electrode called for more than the demand
 * by doses and tests, or doses and tests called for more than the electrode. Either source may be
 * right, since chlorine can go within hours and an electrode can drift. So this feed has a budget:
 * even if none of it was needed, free chlorine stays within what the budget allows.
 *
 * @param fedMgL amount so far, mg/L of the pool; a test of free chlorine resets it to 0
 */
public record Beyond(double fedMgL) {
  public static final Beyond NONE = new Beyond(0);

  /** The budget recovers in this time, s (engineering judgement). */
  private static final double BACK_S = 3 * 86_400.0;

  /** What is left of the budget may be fed in this time, h (engineering judgement). */
  private static final double SPENDS_H = 6;

  /**
   * The ration shrinks with the budget, which is never quite used up. This share counts as all of
   * it.
   */
  private static final double SPENT = 0.8;

  /**
   * @param fedMgL what went in since the last scan, mg/L of the pool by the label
   * @param accountedMgL what both sources account for in that time, mg/L
   * @param elapsedS time in which part of the budget recovers, s
   */
  Beyond step(double fedMgL, double accountedMgL, double budgetMgL, double elapsedS) {
    double more = Math.max(0, fedMgL - accountedMgL);
    double back = more > 0 ? 0 : budgetMgL * elapsedS / BACK_S;
    return new Beyond(Math.min(budgetMgL, Math.max(0, this.fedMgL + more - back)));
  }

  /** Whether the budget is practically used up. */
  boolean spent(double budgetMgL) {
    return fedMgL >= SPENT * budgetMgL;
  }

  /** The most that may be fed beyond what both sources account for, as a duty. */
  double dutyMax(double budgetMgL, double riseMgLH) {
    return Math.max(0, budgetMgL - fedMgL) / SPENDS_H / riseMgLH;
  }
}
