package limnostat.plant;

import java.util.Random;

/**
 * Organic matter that falls or washes in and reacts over days: leaves, pollen, soil. Some arrives
 * every day, in varying amounts. A storm brings a lot at once, including matter that reacts within
 * the hour, and dilutes the water.
 */
public final class Organics {
  private static final double DAY_S = 86_400;

  /**
   * Below about this free chlorine the reaction slows down for lack of chlorine [judgement], mg/L.
   */
  private static final double HALF_RATE_MG_L = 0.5;

  private final Settings settings;
  private final Random random;
  private double hour = Double.NEGATIVE_INFINITY;
  private double mood;
  private double storedMgL;

  /**
   * @param dailyMgL load on a usual day, mg/L as the Cl2 that it consumes
   * @param daySd standard deviation of the logarithm of the ratio of a day's load to the usual one
   * @param dayS correlation time of that variation, s
   * @param reactPerDay rate at which it reacts with chlorine, 1/day
   * @param stormPerDay mean number of storms per day
   * @param stormMgL mean load of a storm that reacts over days, mg/L
   * @param stormQuickMgL mean load of a storm that reacts within the hour, mg/L
   * @param stormShare mean share of the pool's water that a storm replaces
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
    // left from the days before the start
    this.storedMgL = settings.reactPerDay > 0 ? settings.dailyMgL / settings.reactPerDay / 2 : 0;
  }

  /** Adds what arrives up to a time; returns the chlorine lost in the overflow, g. */
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
      // drawn in every case, so that changing one setting shifts no other draw
      boolean storm = random.nextDouble() < settings.stormPerDay / 24;
      double size = -StrictMath.log(1 - random.nextDouble());
      if (storm) {
        overflowG += storm(StrictMath.min(4, size), open);
      }
    }
    return overflowG;
  }

  /**
   * @param size as a ratio to a mean storm
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
   * Lets the matter react for one step in the open water; returns the chlorine consumed, g.
   *
   * @param open the bodies of water that contain it, mixed with each other
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
