package limnostat.plant;

import java.util.Random;

/** A glass electrode. */
public final class GlassElectrode {
  private static final double LN_10 = StrictMath.log(10);

  private final Settings settings;
  private final Noise noise;
  private double ageDays;
  private double potentialMv;

  /**
   * @param offsetMv potential at pH 7, mV
   * @param slopeFraction slope as a fraction of the Nernst slope
   * @param driftMvDay drift of the offset, mV per day
   * @param whiteMv noise from reading to reading, mV
   * @param wanderMv slow noise with a correlation time of an hour, mV
   */
  public record Settings(
      double offsetMv, double slopeFraction, double driftMvDay, double whiteMv, double wanderMv) {}

  GlassElectrode(Settings settings, Random random) {
    this.settings = settings;
    this.noise = new Noise(new Noise.Settings(settings.whiteMv, settings.wanderMv, 3600), random);
  }

  void step(double dtS, Water water) {
    noise.advance(dtS);
    ageDays += dtS / 86_400;
    potentialMv =
        settings.offsetMv
            + settings.driftMvDay * ageDays
            + settings.slopeFraction * nernstMv(water.temperatureC) * (7 - water.ph);
  }

  /** {@code S = 1000 R T ln 10 / F}, mV per unit of pH. */
  static double nernstMv(double waterC) {
    return 1000 * 8.314462618 * Ions.kelvin(waterC) * LN_10 / 96_485.33212;
  }

  double readingMv() {
    return potentialMv + noise.value();
  }
}
