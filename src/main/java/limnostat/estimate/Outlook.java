package limnostat.estimate;

/**
 * Forecast of free chlorine: dF/dt = γ u/V − θ(T) (k F + d F/(F + 0.1)) − p g(t) F/(F + 0.1) − j c
 * s(t) F, with k the loss proportional to F, d the one independent of it, p the loss from people,
 * and j the sun's.
 *
 * @param freeChlorineMgL F now, mg/L
 * @param darkPerDay θ k, 1/day at the present temperature
 * @param steadyMgLDay θ d, mg/L per day at the present temperature
 * @param peopleMgLDay p, mg/L per day on the mean of a whole day
 * @param sunPerDay j, 1/day at a sun shape of 1 on a usual day
 * @param lnCloud ln c, deviation of the present sun from a usual day's; fades over some days
 * @param gain γ, output relative to its label, including the error of the volume
 */
public record Outlook(
    double freeChlorineMgL,
    double darkPerDay,
    double steadyMgLDay,
    double peopleMgLDay,
    double sunPerDay,
    double lnCloud,
    double gain) {

  /** Below about this free chlorine, reactions run short of it, mg/L (engineering judgement). */
  static final double HALF_RATE_MG_L = 0.1;

  /** Persistence of the weather, days (engineering judgement). */
  static final double CLOUD_DAYS = 1.5;

  /**
   * Loss rate at a level, 1/day.
   *
   * @param inDays how far ahead this is, days
   */
  public double ratePerDay(double freeChlorineMgL, Hour hour, double inDays) {
    return darkPerDay
        + (steadyMgLDay + peopleMgLDay * hour.people()) / (freeChlorineMgL + HALF_RATE_MG_L)
        + sunPerDay * hour.sun() * StrictMath.exp(lnCloud * StrictMath.exp(-inDays / CLOUD_DAYS));
  }

  /**
   * Free chlorine after a step.
   *
   * @param riseMgL what is fed during it by the label, mg/L
   * @param inDays how far ahead this is, days
   */
  public double after(
      double freeChlorineMgL, double riseMgL, Hour hour, double days, double inDays) {
    double lost = ratePerDay(freeChlorineMgL, hour, inDays) * days;
    return freeChlorineMgL * StrictMath.exp(-lost) + gain * riseMgL * StrictMath.exp(-lost / 2);
  }

  /**
   * The same for the hours of a coming day, prepared once as the plan tries many courses of it.
   *
   * @param hours sun and bathers of each hour
   */
  public Course course(Hour[] hours) {
    double[] share = new double[hours.length];
    double[] mgLDay = new double[hours.length];
    for (int i = 0; i < hours.length; i++) {
      double cloud = StrictMath.exp(lnCloud * StrictMath.exp(-i / 24.0 / CLOUD_DAYS));
      share[i] = darkPerDay + sunPerDay * hours[i].sun() * cloud;
      mgLDay[i] = steadyMgLDay + peopleMgLDay * hours[i].people();
    }
    return new Course(gain, share, mgLDay);
  }

  /**
   * Losses of the coming hours: a share per day of what is there, and a constant amount per day.
   */
  public static final class Course {
    private final double gain;
    private final double[] sharePerDay;
    private final double[] mgLDay;

    private Course(double gain, double[] sharePerDay, double[] mgLDay) {
      this.gain = gain;
      this.sharePerDay = sharePerDay;
      this.mgLDay = mgLDay;
    }

    /**
     * Loss of free chlorine in an hour at a level, as the feed by the label that would make up for
     * it, mg/L.
     */
    public double takesMgLH(double freeChlorineMgL, int hour) {
      double perDay = sharePerDay[hour] + mgLDay[hour] / (freeChlorineMgL + HALF_RATE_MG_L);
      return perDay * freeChlorineMgL / 24 / gain;
    }

    /**
     * Free chlorine after an hour, mg/L.
     *
     * @param riseMgL what is fed during it by the label, mg/L
     * @param hour index of the hour
     */
    public double after(double freeChlorineMgL, double riseMgL, int hour) {
      double perDay = sharePerDay[hour] + mgLDay[hour] / (freeChlorineMgL + HALF_RATE_MG_L);
      double half = StrictMath.exp(-perDay / 48);
      return freeChlorineMgL * half * half + gain * riseMgL * half;
    }
  }

  /** The same with an output that delivers this share of its label. */
  Outlook delivering(double share) {
    return new Outlook(
        freeChlorineMgL, darkPerDay, steadyMgLDay, peopleMgLDay, sunPerDay, lnCloud, share * gain);
  }

  Outlook at(double level) {
    return new Outlook(level, darkPerDay, steadyMgLDay, peopleMgLDay, sunPerDay, lnCloud, gain);
  }
}
