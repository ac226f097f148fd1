package limnostat.estimate;

import java.util.OptionalDouble;
import limnostat.water.ChlorineForm;

/**
 * What is configured of what changes over weeks.
 *
 * @param cyanuricAcidMgL stabiliser, mg/L; empty: not configured
 * @param saltMgL salt, mg/L; empty: not configured
 * @param form what chlorine is fed as, and so what comes with it
 * @param makeUpM3Week water that is replaced in a week, by splashing, backwash and overflow, m³;
 *     what evaporates leaves all that is dissolved behind, and does not count
 */
public record SlowSettings(
    OptionalDouble cyanuricAcidMgL,
    OptionalDouble saltMgL,
    ChlorineForm form,
    double makeUpM3Week) {

  /** Share of the volume that is replaced in a week, where nothing is configured (judgement). */
  public static final double MAKE_UP_SHARE_WEEK = 0.02;

  /**
   * Most stabiliser for each mg/L of free chlorine, whatever feeds it (Falk et al., Water 2019, 11,
   * 1314, from memory): HOCl goes with their ratio.
   */
  private static final double MOST_STABILISER = 20;

  /** A pool of which stabiliser and salt are configured. */
  public static SlowSettings configured(
      double cyanuricAcidMgL, double saltMgL, ChlorineForm form, double makeUpM3Week) {
    return new SlowSettings(
        OptionalDouble.of(cyanuricAcidMgL), OptionalDouble.of(saltMgL), form, makeUpM3Week);
  }

  /** Least free chlorine that does its work beside so much stabiliser, mg/L. */
  public static double leastFreeChlorineMgL(double stabiliserMgL) {
    return stabiliserMgL / MOST_STABILISER;
  }
}
