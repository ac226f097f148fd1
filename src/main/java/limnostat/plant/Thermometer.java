package limnostat.plant;

import java.util.Random;

/** A thermometer in a pocket (thermowell). */
public final class Thermometer {
  private final Settings settings;
  private final Noise noise;
  private final Decay lag;
  private double pocketC;
  private boolean wetted;

  /**
   * @param offsetC error, °C
   * @param whiteC noise from reading to reading, °C
   * @param lagS first-order lag of the pocket, s
   */
  public record Settings(double offsetC, double whiteC, double lagS) {}

  Thermometer(Settings settings, Random random) {
    this.settings = settings;
    this.noise = new Noise(new Noise.Settings(settings.whiteC, 0, 3600), random);
    this.lag = new Decay(settings.lagS);
  }

  void step(double dtS, Water water) {
    noise.advance(dtS);
    double kept = wetted ? lag.over(dtS) : 0;
    wetted = true;
    pocketC = water.temperatureC + (pocketC - water.temperatureC) * kept;
  }

  double readingC() {
    return pocketC + settings.offsetC + noise.value();
  }
}
