package limnostat.estimate;

/**
 * How free chlorine will go: dF/dt = γ u/V − θ(T) (k F + d F/(F + 0.1)) − p g(t) F/(F + 0.1) − j c
 * s(t) F, with k the loss that goes with F, d the one that does not, p what people bring, j the
 * sun's.
 *
 * @param freeChlorineMgL F now, mg/L
 * @param darkPerDay θ k, 1/day at the present temperature
 * @param steadyMgLDay θ d, mg/L a day at the present temperature
 * @param peopleMgLDay p, mg/L a day on the mean of a whole day
 * @param sunPerDay j, 1/day at a sun shape of 1 on a usual day
 * @param lnCloud ln c, how the present sun differs from a usual day's; fades over some days
 * @param gain γ, what the output gives against its label, with the volume in it
 */
public record Outlook(
    double freeChlorineMgL,
    double darkPerDay,
    double steadyMgLDay,
    double peopleMgLDay,
    double sunPerDay,
    double lnCloud,
    double gain) {

  /** Below about this free chlorine reactions run out of it, mg/L (engineering judgement). */
  static final double HALF_RATE_MG_L = 0.1;

  /** Weather stays for about so long, days (engineering judgement). */
  static final double CLOUD_DAYS = 1.5;

  /**
   * Loss rate at a level, 1/day.
   *
   * @param inDays for how long this is still to come, days
   */
  public double ratePerDay(double freeChlorineMgL, Hour hour, double inDays) {
    return darkPerDay
        + (steadyMgLDay + peopleMgLDay * hour.people()) / (freeChlorineMgL + HALF_RATE_MG_L)
        + sunPerDay * hour.sun() * StrictMath.exp(lnCloud * StrictMath.exp(-inDays / CLOUD_DAYS));
  }

  /**
   * Free chlorine after a step.
   *
   * @param riseMgL what goes in during it by the label, mg/L
   * @param inDays for how long this is still to come, days
   */
  public double after(
      double freeChlorineMgL, double riseMgL, Hour hour, double days, double inDays) {
    double lost = ratePerDay(freeChlorineMgL, hour, inDays) * days;
    return freeChlorineMgL * StrictMath.exp(-lost) + gain * riseMgL * StrictMath.exp(-lost / 2);
  }

  /**
   * The same for a day of hours to come, worked out once where many days are tried.
   *
   * @param hours what each brings
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

  /** Losses of hours to come: a share a day of what is there, and so much a day. */
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
     * What an hour takes of free chlorine at a level, as the output would have to give it by its
     * label, mg/L.
     */
    public double takesMgLH(double freeChlorineMgL, int hour) {
      double perDay = sharePerDay[hour] + mgLDay[hour] / (freeChlorineMgL + HALF_RATE_MG_L);
      return perDay * freeChlorineMgL / 24 / gain;
    }

    /**
     * Free chlorine after an hour, mg/L.
     *
     * @param riseMgL what goes in during it by the label, mg/L
     * @param hour which one
     */
    public double after(double freeChlorineMgL, double riseMgL, int hour) {
      double perDay = sharePerDay[hour] + mgLDay[hour] / (freeChlorineMgL + HALF_RATE_MG_L);
      double half = StrictMath.exp(-perDay / 48);
      return freeChlorineMgL * half * half + gain * riseMgL * half;
    }
  }

  /** The same with an output that gives so much of what its label says. */
  Outlook delivering(double share) {
    return new Outlook(
        freeChlorineMgL, darkPerDay, steadyMgLDay, peopleMgLDay, sunPerDay, lnCloud, share * gain);
  }

  Outlook at(double level) {
    return new Outlook(level, darkPerDay, steadyMgLDay, peopleMgLDay, sunPerDay, lnCloud, gain);
  }
}
