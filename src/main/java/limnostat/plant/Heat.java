package limnostat.plant;

/** Temperature of the water: gain from the sun, loss to the air and to the night sky. */
public final class Heat {
  private static final double WATER_J_M3_K = 4.186e6;
  private static final double FREEZING_C = 0.5;

  private final Settings settings;
  private final double depthM;
  private final Decay line;

  /**
   * @param absorbedShare share of the sun's radiation that the water absorbs
   * @param lossWM2K loss to air, evaporation included, W/(m² K) [judgement: 15–30]
   * @param skyLossWM2 net radiation to a clear sky, W/m² [judgement: 50–90]
   * @param lineHours time constant with which water standing in the pipes reaches air temperature,
   *     h
   */
  public record Settings(
      double absorbedShare, double lossWM2K, double skyLossWM2, double lineHours) {}

  Heat(Settings settings, double depthM) {
    this.settings = settings;
    this.depthM = depthM;
    this.line = new Decay(3600 * settings.lineHours);
  }

  /** Temperature at which open water settles on a fair day with this mean air temperature, °C. */
  static double seasonWaterC(double airMeanC) {
    return StrictMath.max(2, airMeanC + 5); // [judgement]
  }

  void stepOpen(Water water, double dtS, double solarWM2, double airC, double cloudOctas) {
    double gainWM2 =
        settings.absorbedShare * solarWM2
            - settings.lossWM2K * (water.temperatureC - airC)
            - settings.skyLossWM2 * (1 - 0.8 * cloudOctas / 8);
    water.temperatureC += gainWM2 * dtS / (WATER_J_M3_K * depthM);
    // Ice and its latent heat are not modelled; the water just stays at the freezing point.
    water.temperatureC = StrictMath.max(FREEZING_C, water.temperatureC);
  }

  void stepLine(Water water, double dtS, double airC) {
    double share = 1 - line.over(dtS);
    water.temperatureC += (airC - water.temperatureC) * share;
    water.temperatureC = StrictMath.max(FREEZING_C, water.temperatureC);
  }
}
