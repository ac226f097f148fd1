package limnostat.plant;

/**
 * A platinum electrode. It settles at a mixed potential, not at the Nernst potential: it has its
 * own level and slope at each site, and lag, drift and fouling.
 */
public final class OrpElectrode {
  /** Other couples hold the potential when chlorine is almost gone, mg/L of HOCl [judgement]. */
  private static final double FLOOR_MG_L = 1e-4;

  private final Settings settings;
  private final Noise noise;
  private final ElectrodeErrors errors;
  private final Decay lag;
  private double ageDays;
  private double filmMv;
  private boolean wetted;

  /**
   * @param levelMv potential at 1 mg/L of HOCl and pH 7.5, mV, before the offset
   * @param offsetMv deviation of this electrode, mV, ±60 (James, Copeland and Lytle saw 218 mV
   *     between two of the same kind [checked])
   * @param slopeMv mV per decade of HOCl at 25 °C, 25–70 (30–90 plausible [practice])
   * @param slopePhMv mV per unit of pH at the same HOCl, negative
   * @param lagMin first-order lag, min, 2–10 [judgement]
   * @param driftMvDay slow drift, mV per day
   * @param foulingPerDay loss of slope, 1/day
   * @param whiteMv noise from reading to reading, mV
   * @param wanderMv slow noise with a correlation time of half an hour, mV
   */
  public record Settings(
      double levelMv,
      double offsetMv,
      double slopeMv,
      double slopePhMv,
      double lagMin,
      double driftMvDay,
      double foulingPerDay,
      double whiteMv,
      double wanderMv) {}

  OrpElectrode(Settings settings, java.util.Random random) {
    this(settings, random, ElectrodeErrors.none());
  }

  OrpElectrode(Settings settings, java.util.Random random, ElectrodeErrors errors) {
    this.settings = settings;
    this.errors = errors;
    this.noise = new Noise(new Noise.Settings(settings.whiteMv, settings.wanderMv, 1800), random);
    this.lag = new Decay(60 * settings.lagMin);
  }

  void step(double dtS, Water water) {
    step(dtS, water, false);
  }

  /**
   * @param outputOn whether the chlorine output is on
   */
  void step(double dtS, Water water, boolean outputOn) {
    noise.advance(dtS);
    errors.step(dtS, water, outputOn);
    ageDays += dtS / 86_400;
    double settledMv = settledMv(water);
    double kept = wetted ? lag.over(dtS) : 0;
    wetted = true;
    filmMv = settledMv + (filmMv - settledMv) * kept;
  }

  /** {@code E = a + b log10(HOCl) + c (pH - 7.5)}, plus the electrode's other errors. */
  private double settledMv(Water water) {
    double slopeMv =
        settings.slopeMv
            * StrictMath.exp(-settings.foulingPerDay * ageDays)
            * Ions.kelvin(water.temperatureC)
            / 298.15;
    return settings.levelMv
        + settings.offsetMv
        + settings.driftMvDay * ageDays
        + slopeMv * StrictMath.log10(water.hoclMgL + FLOOR_MG_L + errors.backgroundHoclMgL())
        + settings.slopePhMv * (water.ph - 7.5)
        + errors.mv();
  }

  double readingMv() {
    return filmMv + noise.value();
  }
}
