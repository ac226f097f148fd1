package limnostat.plant;

import java.util.Random;

/**
 * What falls and washes in and reacts over days: leaves, pollen, soil. It comes each day, more on
 * some than on others, and all at once in a storm, which brings what reacts within the hour too and
 * thins the water.
 */
public final class Organics {
  private static final double DAY_S = 86_400;

  /** Below about this free chlorine the reaction runs out of it [judgement], mg/L. */
  private static final double HALF_RATE_MG_L = 0.5;

  private final Settings settings;
  private final Random random;
  private double hour = Double.NEGATIVE_INFINITY;
  private double mood;
  private double storedMgL;

  /**
   * @param dailyMgL what comes on a usual day, mg/L as the Cl2 that it takes
   * @param daySd standard deviation of the logarithm of a day's over the usual one
   * @param dayS correlation time of that, s
   * @param reactPerDay rate at which chlorine takes it, 1/day
   * @param stormPerDay storms a day in the mean
   * @param stormMgL what a storm brings in the mean that reacts over days, mg/L
   * @param stormQuickMgL what it brings in the mean that reacts within the hour, mg/L
   * @param stormShare share of the water that it replaces in the mean
   */
  public record Settings(
      double dailyMgL,
      double daySd,
      double dayS,
      double reactPerDay,
      double stormPerDay,
      double stormMgL,
      double stormQuickMgL,
      double stormShare) {
    static final Settings NONE = new Settings(0, 0, DAY_S, 0, 0, 0, 0, 0);
  }

  Organics(Settings settings, Random random) {
    this.settings = settings;
    this.random = random;
    // what days before the start have left
    this.storedMgL = settings.reactPerDay > 0 ? settings.dailyMgL / settings.reactPerDay / 2 : 0;
  }

  /** What comes up to a time; returns the chlorine that overflows, g. */
  double arrive(double unixTimeS, double dtS, Water[] open) {
    if (settings.reactPerDay == 0) {
      return 0;
    }
    storedMgL += settings.dailyMgL * StrictMath.exp(mood) * dtS / DAY_S;
    double hourNow = StrictMath.floor(unixTimeS / 3600);
    if (hour == Double.NEGATIVE_INFINITY) {
      hour = hourNow;
      mood = settings.daySd * random.nextGaussian();
    }
    double overflowG = 0;
    for (; hour < hourNow; hour++) {
      double kept = StrictMath.exp(-3600 / settings.dayS);
      mood =
          mood * kept + settings.daySd * StrictMath.sqrt(1 - kept * kept) * random.nextGaussian();
      // all are drawn in any case, so that a change of one setting shifts no other draw
      boolean storm = random.nextDouble() < settings.stormPerDay / 24;
      double size = -StrictMath.log(1 - random.nextDouble());
      if (storm) {
        overflowG += storm(StrictMath.min(4, size), open);
      }
    }
    return overflowG;
  }

  /**
   * @param size over that of a mean one
   */
  private double storm(double size, Water[] open) {
    storedMgL += settings.stormMgL * size;
    double left = StrictMath.exp(-settings.stormShare * size);
    double overflowG = 0;
    for (Water water : open) {
      overflowG += water.freeChlorineMgL * (1 - left) * water.volumeM3;
      water.dilute(left);
      water.loadMgL += settings.stormQuickMgL * size;
    }
    return overflowG;
  }

  /**
   * It reacts for a step in the open water; returns the chlorine taken, g.
   *
   * @param open the bodies that it is in, mixed between them
   */
  double react(double dtS, Water[] open) {
    if (storedMgL <= 0) {
      return 0;
    }
    double volumeM3 = 0;
    double takenG = 0;
    for (Water water : open) {
      double free = StrictMath.max(0, water.freeChlorineMgL);
      double perS = settings.reactPerDay * free / (free + HALF_RATE_MG_L) / DAY_S;
      double taken = StrictMath.min(free, storedMgL * (1 - StrictMath.exp(-perS * dtS)));
      water.spend(taken);
      takenG += taken * water.volumeM3;
      volumeM3 += water.volumeM3;
    }
    storedMgL -= takenG / volumeM3;
    return takenG;
  }

  double storedMgL() {
    return storedMgL;
  }
}
