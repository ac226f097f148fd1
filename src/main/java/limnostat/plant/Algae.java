package limnostat.plant;

/**
 * Algae. They grow in water with too little chlorine and consume chlorine. They die when there is
 * enough free chlorine for the stabiliser level.
 */
public final class Algae {
  private static final double DAY_S = 86_400;

  /** Below about this free chlorine their consumption drops towards zero [judgement], mg/L. */
  private static final double HALF_RATE_MG_L = 0.2;

  /** Temperature rise that doubles their growth, °C [judgement]. */
  private static final double DOUBLING_C = 10;

  private final Settings settings;
  private double demandMgLDay;

  /**
   * @param seedMgLDay consumption when all is well, mg/L per day; they never disappear completely
   * @param capMgLDay highest consumption, a green pool, mg/L per day
   * @param growthPerDay growth rate in water of 25 °C without chlorine, 1/day
   * @param deathPerDay death rate at twice the chlorine that stops their growth, 1/day
   * @param safeShare free chlorine that stops their growth, as a ratio to the stabiliser
   * @param safeMaxMgL upper limit of that free chlorine, mg/L
   */
  public record Settings(
      double seedMgLDay,
      double capMgLDay,
      double growthPerDay,
      double deathPerDay,
      double safeShare,
      double safeMaxMgL) {
    static final Settings NONE = new Settings(0, 0, 0, 0, 0, 0);
  }

  Algae(Settings settings) {
    this.settings = settings;
    this.demandMgLDay = settings.seedMgLDay;
  }

  /**
   * Advances their growth or death by one step in the open water.
   *
   * @param water its chlorine, stabiliser and temperature count
   */
  void live(Water water, double dtS) {
    if (settings.capMgLDay == 0) {
      return;
    }
    double safeMgL =
        StrictMath.max(
            0.3, StrictMath.min(settings.safeMaxMgL, settings.safeShare * water.cyanuricAcidMgL));
    double over = water.freeChlorineMgL / safeMgL - 1;
    double warmth = StrictMath.pow(2, (water.temperatureC - 25) / DOUBLING_C);
    double perDay =
        over < 0
            ? -over * settings.growthPerDay * warmth
            : -StrictMath.min(3, over) * settings.deathPerDay;
    demandMgLDay =
        StrictMath.max(
            settings.seedMgLDay,
            StrictMath.min(
                settings.capMgLDay, demandMgLDay * StrictMath.exp(perDay * dtS / DAY_S)));
  }

  /** Takes chlorine from a body of water for one step; returns the amount, mg/L. */
  double take(Water water, double dtS) {
    double free = water.freeChlorineMgL;
    if (demandMgLDay == 0 || free <= 0) {
      return 0;
    }
    double perS = demandMgLDay / (free + HALF_RATE_MG_L) / DAY_S;
    double taken = free * (1 - StrictMath.exp(-perS * dtS));
    water.spend(taken);
    return taken;
  }

  double demandMgLDay() {
    return demandMgLDay;
  }
}
