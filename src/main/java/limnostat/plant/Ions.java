package limnostat.plant;

/** Activity of ions in salt water. */
final class Ions {
  private static final double LN_10 = StrictMath.log(10);
  private static final double SODIUM_CHLORIDE_MG_MMOL = 58.443;

  private Ions() {}

  /**
   * Activity coefficient of a singly charged ion: {@code log10 g = -A z² (√I/(1+√I) - 0.3 I)},
   * Davies [memory]; for a doubly charged ion it is the fourth power of this.
   *
   * @param saltMgL sodium chloride, mg/L
   * @return 0–1
   */
  static double activity(double saltMgL, double waterC) {
    double ionicStrength = saltMgL / SODIUM_CHLORIDE_MG_MMOL / 1000;
    // A is 0.4918 at 0 °C, 0.5115 at 25 °C [computed from Malmberg and Maryott]; a straight line is
    // enough.
    double a = 0.4918 + 0.00079 * waterC;
    double root = StrictMath.sqrt(ionicStrength);
    return antilog(-a * (root / (1 + root) - 0.3 * ionicStrength));
  }

  /** 10 to the power of x. */
  static double antilog(double x) {
    return StrictMath.exp(LN_10 * x);
  }

  /** Absolute temperature, K. */
  static double kelvin(double celsius) {
    return celsius + 273.15;
  }
}
