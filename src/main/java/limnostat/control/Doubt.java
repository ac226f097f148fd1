package limnostat.control;

import limnostat.estimate.Estimate;

/**
 * What is worth a person's attention once it has lasted for a day.
 *
 * @param unsure for how long free chlorine has been hardly known
 * @param gone for how long the chlorine of the water may have been gone
 * @param starved for how long the plan has fed far less than doses and tests alone call for
 */
public record Doubt(Lasting unsure, Lasting gone, Lasting starved) {
  public static final Doubt NONE = new Doubt(Lasting.NOT, Lasting.NOT, Lasting.NOT);

  /** Free chlorine with a deviation of this share of it is hardly known (engineering judgement). */
  private static final double UNSURE = 0.5;

  /** It may be gone with this probability, one in five (engineering judgement). */
  private static final double GONE = 0.2;

  /**
   * No electrode's word alone takes the feed below this share of what doses and tests call for, but
   * for a day (engineering judgement).
   */
  static final double SHARE = 0.5;

  Doubt step(Estimate estimate, Plan plan, double elapsedS) {
    return new Doubt(
        unsure.step(estimate.residual().sdShare() > UNSURE, elapsedS),
        gone.step(
            Math.max(estimate.residual().gone(), estimate.residual().goneByBalance()) > GONE,
            elapsedS),
        starved.step(plan.duty() < SHARE * plan.balanceDuty(), elapsedS));
  }

  /** What the plan feeds at the least, 0–1. */
  double leastDuty(Plan plan) {
    return starved.enough() ? SHARE * plan.balanceDuty() : 0;
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
