package limnostat.estimate;

import limnostat.water.ChlorineForm;

/** When chlorine is best fed. */
public final class FeedWorth {
  private FeedWorth() {}

  /**
   * How long chlorine fed in an hour lasts in it against an hour in the dark, 0 to 1: loss rate
   * without the sun over loss rate with it. It follows what was learned of this pool, so that
   * little is made of the sun where stabiliser shields the chlorine. A plan may weigh its hours by
   * it: of two hours of the same worth neither is better, of others the one with more.
   *
   * <p>1 for a salt cell, whose output is small and wants all hours of its pump, and for stabilised
   * chlorine, which brings its shield with it.
   *
   * @param outlook losses as they are believed now
   * @param freeChlorineMgL level at which the chlorine will stand, mg/L
   * @param hour what that hour brings, see {@link SunOnWater#hourAt}
   * @param inDays for how long it is still to come, days
   */
  public static double of(
      EstimateSettings pool, Outlook outlook, double freeChlorineMgL, Hour hour, double inDays) {
    ChlorineForm form = pool.slow().form();
    if (form == ChlorineForm.SALT_CELL || form.stabilised()) {
      return 1;
    }
    double dark = outlook.ratePerDay(freeChlorineMgL, hour.withSun(0, false), inDays);
    double lit = outlook.ratePerDay(freeChlorineMgL, hour, inDays);
    return lit > 0 ? dark / lit : 1;
  }
}
