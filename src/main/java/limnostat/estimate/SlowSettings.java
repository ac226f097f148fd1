package limnostat.estimate;

import java.util.OptionalDouble;
import limnostat.water.ChlorineForm;

/**
 * Configuration of what changes over weeks.
 *
 * @param cyanuricAcidMgL stabiliser, mg/L; empty: not configured
 * @param saltMgL salt, mg/L; empty: not configured
 * @param form form in which chlorine is fed, and so what comes with it
 * @param makeUpM3Week water replaced per week, by splashing, backwash and overflow, m³; evaporation
 *     leaves everything dissolved behind, so it does not count
 */
public record SlowSettings(
    OptionalDouble cyanuricAcidMgL,
    OptionalDouble saltMgL,
    ChlorineForm form,
    double makeUpM3Week) {

  /** Default share of the volume that is replaced per week (judgement). */
  public static final double MAKE_UP_SHARE_WEEK = 0.02;

  /**
   * Most stabiliser per mg/L of free chlorine, whatever the feed (Falk et al., Water 2019, 11,
   * 1314, from memory): HOCl depends on their ratio.
   */
  private static final double MOST_STABILISER = 20;

  /** A pool with stabiliser and salt configured. */
  public static SlowSettings configured(
      double cyanuricAcidMgL, double saltMgL, ChlorineForm form, double makeUpM3Week) {
    return new SlowSettings(
        OptionalDouble.of(cyanuricAcidMgL), OptionalDouble.of(saltMgL), form, makeUpM3Week);
  }

  /** Least effective free chlorine at this level of stabiliser, mg/L. */
  public static double leastFreeChlorineMgL(double stabiliserMgL) {
    return stabiliserMgL / MOST_STABILISER;
  }
}
