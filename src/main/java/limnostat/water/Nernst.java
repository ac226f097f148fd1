package limnostat.water;

/** The Nernst equation's temperature factor, which every electrode shares. */
public final class Nernst {
  /** Gas constant, J/(mol K): exact, SI 2019. */
  private static final double GAS_CONSTANT = 8.314462618;

  /** Faraday constant, C/mol: exact, SI 2019. */
  private static final double FARADAY = 96485.33212;

  private static final double LN_10 = 2.302585092994046;

  private static final double ZERO_C_IN_K = 273.15;

  private Nernst() {}

  /**
   * Slope of an ideal one-electron electrode, S(t) = 1000 R T ln 10 / F, in mV per decade (for a
   * glass electrode: mV per pH unit). 59.159 at 25 °C.
   *
   * @param temperatureC 0–100 °C
   */
  public static double slopeMvPerPh(double temperatureC) {
    return 1000 * GAS_CONSTANT * (temperatureC + ZERO_C_IN_K) * LN_10 / FARADAY;
  }
}
