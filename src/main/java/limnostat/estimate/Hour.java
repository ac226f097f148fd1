package limnostat.estimate;

/**
 * Sun and bathers at a time of day.
 *
 * @param sun strength of the sun on the water; 1: mean of a summer day at 45° (night included)
 * @param people how many people are likely to be in the water or to have just left it; 1: mean of a
 *     day
 * @param measured whether a sensor measures the sun; else it is that of a usual or a forecast sky
 */
public record Hour(double sun, double people, boolean measured) {
  /** A whole day's mean. */
  public static final Hour MEAN = new Hour(1, 1);

  /** Daily mean of the cosine of the zenith angle at a sun shape of 1: a summer day at 45°. */
  private static final double SUN_REFERENCE = 0.33;

  /**
   * People bathe from late morning, and what they bring reacts until night, hours of mean solar
   * time (engineering judgement).
   */
  private static final double PEOPLE_FROM_H = 9.5;

  private static final double PEOPLE_UNTIL_H = 22;

  /** An hour without a measurement of the sun. */
  public Hour(double sun, double people) {
    this(sun, people, false);
  }

  /** Under the usual sky, without a cover. */
  public static Hour of(EstimateSettings pool, double unixTimeS) {
    double cosZenith = Sun.cosZenith(unixTimeS, pool.latitudeDeg(), pool.longitudeDeg());
    return new Hour(sun(cosZenith), people(unixTimeS, pool.longitudeDeg()));
  }

  /** Strength of the sun on open water, by the cosine of its zenith angle. */
  static double sun(double cosZenith) {
    return Math.max(0, cosZenith) / SUN_REFERENCE;
  }

  /** The same hour with another sun. */
  Hour withSun(double shape, boolean isMeasured) {
    return new Hour(shape, people, isMeasured);
  }

  /** Number of people, as half a sine wave with a daily mean of 1. */
  static double people(double unixTimeS, double longitudeDeg) {
    double hours = unixTimeS / 3600 + longitudeDeg / 15;
    double hour = hours - 24 * StrictMath.floor(hours / 24);
    double length = PEOPLE_UNTIL_H - PEOPLE_FROM_H;
    double phase = (hour - PEOPLE_FROM_H) / length;
    return phase > 0 && phase < 1
        ? StrictMath.sin(StrictMath.PI * phase) * 24 / length * StrictMath.PI / 2
        : 0;
  }
}
