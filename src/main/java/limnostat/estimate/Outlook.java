package limnostat.estimate;

/**
 * How free chlorine will go: dF/dt = γ u/V − θ(T) (k F + d F/(F + 0.1)) − j s(t) F, with k the loss
 * that goes with F, d the one that does not, j the sun's.
 *
 * @param freeChlorineMgL F now, mg/L
 * @param darkPerDay θ k, 1/day at the present temperature
 * @param steadyMgLDay θ d, mg/L a day at the present temperature
 * @param sunPerDay j, 1/day at a sun shape of 1
 * @param gain γ, what the output gives against what is told, with the volume in it
 */
public record Outlook(
    double freeChlorineMgL, double darkPerDay, double steadyMgLDay, double sunPerDay, double gain) {

  /** Below about this free chlorine reactions run out of it, mg/L (engineering judgement). */
  static final double HALF_RATE_MG_L = 0.1;

  /** Loss rate at a level, 1/day. */
  public double ratePerDay(double freeChlorineMgL, double sunShape) {
    return darkPerDay + steadyMgLDay / (freeChlorineMgL + HALF_RATE_MG_L) + sunPerDay * sunShape;
  }

  /**
   * Free chlorine after a step.
   *
   * @param riseMgL what is told to go in during it, mg/L
   */
  public double after(double freeChlorineMgL, double riseMgL, double sunShape, double days) {
    double lost = ratePerDay(freeChlorineMgL, sunShape) * days;
    return freeChlorineMgL * StrictMath.exp(-lost) + gain * riseMgL * StrictMath.exp(-lost / 2);
  }
}
