package limnostat.control;

import limnostat.estimate.Estimate;

/**
 * Conditions that are reported once they have lasted for a day.
 *
 * @param unsure for how long free chlorine has been too uncertain
 * @param gone for how long the chlorine may have been gone
 * @param starved for how long the plan has fed far less than doses and tests call for
 * @param against what was then fed on the evidence of doses and tests alone
 */
public record Doubt(LeakyTimer unsure, LeakyTimer gone, LeakyTimer starved, Beyond against) {
  public static final Doubt NONE =
      new Doubt(LeakyTimer.NOT, LeakyTimer.NOT, LeakyTimer.NOT, Beyond.NONE);

  /** Free chlorine with a deviation above this share is too uncertain (engineering judgement). */
  private static final double UNSURE = 0.5;

  /** Chlorine may be gone above this probability, one in five (engineering judgement). */
  private static final double GONE = 0.2;

  /**
   * The electrode alone may keep the feed below this share of what doses and tests call for, but
   * only for a day (engineering judgement).
   */
  static final double SHARE = 0.5;

  /**
   * @param givenMgL chlorine that went in since the last scan, mg/L of the pool by the label
   * @param riseMgLH rise at full duty, mg/L per hour
   * @param budgetMgL the blind budget, mg/L of the pool
   */
  Doubt step(
      Estimate estimate,
      Plan plan,
      double givenMgL,
      double riseMgLH,
      double budgetMgL,
      double elapsedS) {
    return new Doubt(
        unsure.step(estimate.residual().sdShare() > UNSURE, elapsedS),
        gone.step(
            Math.max(estimate.residual().gone(), estimate.residual().goneByBalance()) > GONE,
            elapsedS),
        starved.step(plan.duty() < SHARE * plan.balanceDuty(), elapsedS),
        against.step(givenMgL, plan.duty() * riseMgLH * elapsedS / 3600, budgetMgL, elapsedS));
  }

  /**
   * The least that the plan feeds, 0–1. The electrode contradicts doses and tests, and nobody can
   * say which is wrong, so this feed has the blind budget too.
   */
  double leastDuty(Plan plan, double budgetMgL, double riseMgLH) {
    double left = against.dutyMax(budgetMgL, riseMgLH);
    return starved.enough() ? Math.min(left, SHARE * plan.balanceDuty()) : 0;
  }

  public boolean longUnsure() {
    return unsure.enough();
  }

  public boolean longGone() {
    return gone.enough();
  }

  public boolean longStarved() {
    return starved.enough();
  }
}
