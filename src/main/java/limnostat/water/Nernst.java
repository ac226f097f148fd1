package limnostat.water;

/** The Nernst slope of a pH electrode. */
public final class Nernst {
  /** Gas constant, J/(mol K), SI 2019. */
  private static final double GAS_CONSTANT = 8.314462618;

  /** Faraday constant, C/mol, SI 2019. */
  private static final double FARADAY = 96485.33212;

  private static final double LN_10 = 2.302585092994046;

  private Nernst() {}

  /**
   * S(t) = 1000 R T ln10 / F.
   *
   * @param temperatureC water temperature, °C
   * @return slope, mV a pH unit; 59.159 at 25 °C
   */
  public static double slopeMvPerPh(double temperatureC) {
    return 1000 * GAS_CONSTANT * (temperatureC + 273.15) * LN_10 / FARADAY;
  }
}
