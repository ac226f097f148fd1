package limnostat.plant;

import java.util.Random;

/** Random error of a reading: a slow part and a white part. */
final class Noise {
  private final Settings settings;
  private final Random random;
  private final Decay decay;
  private double wander;
  private double white;

  /**
   * In the unit of the reading.
   *
   * @param whiteSd standard deviation from reading to reading
   * @param wanderSd standard deviation of the slow part
   * @param wanderS its correlation time, s
   */
  record Settings(double whiteSd, double wanderSd, double wanderS) {}

  Noise(Settings settings, Random random) {
    this.settings = settings;
    this.random = random;
    this.decay = new Decay(settings.wanderS);
  }

  void advance(double dtS) {
    double kept = decay.over(dtS);
    wander =
        wander * kept
            + settings.wanderSd * StrictMath.sqrt(1 - kept * kept) * random.nextGaussian();
    white = settings.whiteSd * random.nextGaussian();
  }

  double value() {
    return wander + white;
  }
}
