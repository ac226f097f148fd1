package limnostat.plant;

/**
 * Algae: they grow in water that is starved of chlorine, take chlorine, and die where there is
 * enough of it for the stabiliser that holds it.
 */
public final class Algae {
  private static final double DAY_S = 86_400;

  /** Below about this free chlorine what they take runs out [judgement], mg/L. */
  private static final double HALF_RATE_MG_L = 0.2;

  /** Rise that doubles their growth, °C [judgement]. */
  private static final double DOUBLING_C = 10;

  private final Settings settings;
  private double demandMgLDay;

  /**
   * @param seedMgLDay what they take when all is well, mg/L a day; they never go altogether
   * @param capMgLDay the most that they take: a green pool, mg/L a day
   * @param growthPerDay growth in water of 25 °C without chlorine, 1/day
   * @param deathPerDay death at twice the chlorine that stops them, 1/day
   * @param safeShare free chlorine that stops them, over the stabiliser
   * @param safeMaxMgL the same at most, mg/L
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
   * They live for a step in the open water.
   *
   * @param water what they live in, as far as chlorine, stabiliser and temperature go
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

  /** Takes chlorine of a body of water for a step; returns how much, mg/L. */
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
