package limnostat.estimate;

/**
 * Position of the sun. NOAA's long form (after Meeus, Astronomical Algorithms), accurate to ±0.05°
 * for the years 1950–2050. It is the program's own code, as bit-identical replay needs StrictMath.
 */
public final class Sun {
  private static final double DEG = StrictMath.PI / 180;

  private Sun() {}

  /** Sine of the declination and equation of time (minutes) of one instant. */
  private record Ephemeris(double sinDeclination, double equationOfTimeMin) {
    double cosDeclination() {
      return StrictMath.sqrt(1 - sinDeclination * sinDeclination);
    }
  }

  /** Cosine of the zenith angle, geometric (no refraction); below 0: the sun is down. */
  public static double cosZenith(double unixTimeS, double latitudeDeg, double longitudeDeg) {
    Ephemeris sun = ephemeris(unixTimeS);
    double minutesUtc = (unixTimeS - 86400 * StrictMath.floor(unixTimeS / 86400)) / 60;
    double hourAngle = ((minutesUtc + sun.equationOfTimeMin() + 4 * longitudeDeg) / 4 - 180) * DEG;
    double latitude = latitudeDeg * DEG;
    return StrictMath.sin(latitude) * sun.sinDeclination()
        + StrictMath.cos(latitude) * sun.cosDeclination() * StrictMath.cos(hourAngle);
  }

  /**
   * Mean over the day of the cosine of the zenith angle where it is positive: (ω0 sin φ sin δ + cos
   * φ cos δ sin ω0)/π, ω0 the sunset hour angle (Duffie and Beckman, daily extraterrestrial
   * radiation; from memory). 0 in polar night.
   */
  public static double dailyMeanCosZenith(double unixTimeS, double latitudeDeg) {
    Ephemeris sun = ephemeris(unixTimeS);
    double latitude = latitudeDeg * DEG;
    double cosSunset = -StrictMath.tan(latitude) * sun.sinDeclination() / sun.cosDeclination();
    double sunset = StrictMath.acos(Math.max(-1, Math.min(1, cosSunset)));
    double mean =
        (sunset * StrictMath.sin(latitude) * sun.sinDeclination()
                + StrictMath.cos(latitude) * sun.cosDeclination() * StrictMath.sin(sunset))
            / StrictMath.PI;
    return Math.max(0, mean);
  }

  private static Ephemeris ephemeris(double unixTimeS) {
    double t = (unixTimeS / 86400 + 2440587.5 - 2451545.0) / 36525; // Julian centuries, J2000.0
    double meanLongitude = 280.46646 + t * (36000.76983 + 0.0003032 * t);
    double meanAnomaly = (357.52911 + t * (35999.05029 - 0.0001537 * t)) * DEG;
    double eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
    double sinAnomaly = StrictMath.sin(meanAnomaly);
    double sinTwice = StrictMath.sin(2 * meanAnomaly);
    double centre =
        sinAnomaly * (1.914602 - t * (0.004817 + 0.000014 * t))
            + sinTwice * (0.019993 - 0.000101 * t)
            + StrictMath.sin(3 * meanAnomaly) * 0.000289;
    double node = (125.04 - 1934.136 * t) * DEG;
    double apparentLongitude =
        (meanLongitude + centre - 0.00569 - 0.00478 * StrictMath.sin(node)) * DEG;
    double obliquity =
        (23
                + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60
                + 0.00256 * StrictMath.cos(node))
            * DEG;
    double sinDeclination = StrictMath.sin(obliquity) * StrictMath.sin(apparentLongitude);
    double l = meanLongitude * DEG;
    double tanHalf = StrictMath.tan(obliquity / 2);
    double y = tanHalf * tanHalf;
    double equationOfTime =
        y * StrictMath.sin(2 * l)
            - 2 * eccentricity * sinAnomaly
            + 4 * eccentricity * y * sinAnomaly * StrictMath.cos(2 * l)
            - 0.5 * y * y * StrictMath.sin(4 * l)
            - 1.25 * eccentricity * eccentricity * sinTwice;
    return new Ephemeris(sinDeclination, 4 * equationOfTime / DEG);
  }
}
