package limnostat.control;

import limnostat.estimate.Estimate;

/**
 * What is worth a person's attention once it has lasted for a day.
 *
 * @param unsure for how long free chlorine has been hardly known
 * @param gone for how long the chlorine of the water may have been gone
 * @param starved for how long the plan has fed far less than doses and tests alone call for
 * @param against what was then fed on the word of doses and tests alone
 */
public record Doubt(LeakyTimer unsure, LeakyTimer gone, LeakyTimer starved, Beyond against) {
  public static final Doubt NONE =
      new Doubt(LeakyTimer.NOT, LeakyTimer.NOT, LeakyTimer.NOT, Beyond.NONE);

  /** Free chlorine with a deviation of this share of it is hardly known (engineering judgement). */
  private static final double UNSURE = 0.5;

  /** It may be gone with this probability, one in five (engineering judgement). */
  private static final double GONE = 0.2;

  /**
   * No electrode's word alone takes the feed below this share of what doses and tests call for, but
   * for a day (engineering judgement).
   */
  static final double SHARE = 0.5;

  /**
   * @param givenMgL chlorine that went in since the last scan, mg/L of the pool by the label
   * @param riseMgLH what the output brings at full duty, mg/L an hour
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
   * What the plan feeds at the least, 0–1. It is the electrode's word against that of doses and
   * tests, and nobody can say which is wrong: so this has the blind budget too.
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
