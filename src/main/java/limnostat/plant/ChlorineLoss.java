package limnostat.plant;

/** What consumes chlorine: sunlight, the water itself, and what people and rain bring. */
public final class ChlorineLoss {
  /**
   * Below about this free chlorine (mg/L) the reactions slow down for lack of chlorine [judgement].
   */
  private static final double HALF_RATE_MG_L = 0.1;

  private static final double DAY_S = 86_400;
  private static final double LN_2 = StrictMath.log(2);

  private final Settings settings;
  private final double depthFactor;

  /**
   * @param hoclPerS photolysis of HOCl at the surface, clear summer noon at 47° N, 1/s: 2e-4,
   *     Nowell and Hoigné (1992), Water Res. 26:593 [checked]
   * @param oclPerS photolysis of OCl- under the same conditions, 1/s: 1.2e-3 [checked]
   * @param boundPerS photolysis of chlorine bound to cyanurate, 1/s; small enough that the sun
   *     takes a few per cent a day in well-stabilised water (Wojtowicz: 1–2 % at 138 mg/L [checked,
   *     abstract])
   * @param attenuationPerM attenuation of this ultraviolet light in the water, 1/m [judgement]
   * @param darkPerDay first-order loss in the dark at 25 °C, 1/day (Wojtowicz: 0.15 in total for a
   *     clean pool without bathers [checked, abstract])
   * @param steadyMgLDay what walls, leaves and dust consume at 25 °C whatever the chlorine, mg/L
   *     per day
   * @param doublingC temperature rise that doubles the dark losses, °C: 8–10 [practice]
   * @param linePerH further first-order loss in the pipes and the filter, 1/h [judgement]
   * @param loadHours time constant of the reaction with what people brought, h [judgement]
   * @param combinedShare share of that reaction that leaves combined chlorine [judgement]
   * @param combinedPerDay oxidation of combined chlorine, 1/day for each mg/L of free chlorine
   *     [judgement]
   */
  public record Settings(
      double hoclPerS,
      double oclPerS,
      double boundPerS,
      double attenuationPerM,
      double darkPerDay,
      double steadyMgLDay,
      double doublingC,
      double linePerH,
      double loadHours,
      double combinedShare,
      double combinedPerDay) {
    /** Water that consumes no chlorine by itself; what people bring still reacts. */
    public Settings without() {
      return new Settings(
          0, 0, 0, attenuationPerM, 0, 0, doublingC, 0, loadHours, combinedShare, combinedPerDay);
    }
  }

  ChlorineLoss(Settings settings, double depthM) {
    this.settings = settings;
    double path = settings.attenuationPerM * depthM;
    // mean over the depth of exp(-a z): (1 - e^(-aD))/(aD)
    this.depthFactor = path > 0 ? (1 - StrictMath.exp(-path)) / path : 1;
  }

  /** Water in sunlight; returns the free chlorine lost, mg/L. */
  double stepOpen(Water water, double dtS, double ultravioletFraction) {
    double sunPerS = 0;
    if (water.freeChlorineMgL > 0) {
      sunPerS =
          ultravioletFraction
              * depthFactor
              * (settings.hoclPerS * water.hoclMgL
                  + settings.oclPerS * water.oclMgL
                  + settings.boundPerS * water.boundMgL)
              / water.freeChlorineMgL;
    }
    return step(water, dtS, sunPerS);
  }

  /** Water in sunlight, with another photolysis law; returns the free chlorine lost, mg/L. */
  double stepOpenAt(Water water, double dtS, double sunPerS) {
    return step(water, dtS, sunPerS);
  }

  /** Water in the pipes. */
  double stepLine(Water water, double dtS) {
    return step(water, dtS, settings.linePerH / 3600);
  }

  private double step(Water water, double dtS, double furtherPerS) {
    double before = water.freeChlorineMgL;
    double warmth = StrictMath.exp(LN_2 * (water.temperatureC - 25) / settings.doublingC);
    double perS =
        furtherPerS
            + warmth
                * (settings.darkPerDay + settings.steadyMgLDay / (before + HALF_RATE_MG_L))
                / DAY_S;
    water.spend(before * (1 - StrictMath.exp(-perS * dtS)));
    reactLoad(water, dtS);
    oxidiseCombined(water, dtS);
    return before - water.freeChlorineMgL;
  }

  private void reactLoad(Water water, double dtS) {
    double free = water.freeChlorineMgL;
    if (water.loadMgL <= 0 || free <= 0) {
      return;
    }
    double perS = free / (free + HALF_RATE_MG_L) / (3600 * settings.loadHours);
    double reacted = water.loadMgL * (1 - StrictMath.exp(-perS * dtS));
    // Part of a load's total demand is consumed later, by the combined chlorine that it leaves.
    // With the first part x: x + 0.5 share x = total.
    double first = StrictMath.min(free, reacted / (1 + 0.5 * settings.combinedShare));
    water.loadMgL -= first * (1 + 0.5 * settings.combinedShare);
    water.spend(first);
    water.combinedChlorineMgL += settings.combinedShare * first;
  }

  /** 2 NH2Cl + HOCl = N2 + 3 H+ + 3 Cl- + H2O: half as much free as combined chlorine. */
  private void oxidiseCombined(Water water, double dtS) {
    if (water.combinedChlorineMgL <= 0) {
      return;
    }
    double perS = settings.combinedPerDay * water.freeChlorineMgL / DAY_S;
    double oxidised = water.combinedChlorineMgL * (1 - StrictMath.exp(-perS * dtS));
    oxidised = StrictMath.min(oxidised, 2 * water.freeChlorineMgL);
    water.combinedChlorineMgL -= oxidised;
    water.spend(0.5 * oxidised);
  }
}
