package limnostat.water;

/**
 * Constants of the carbonate system: Plummer and Busenberg (1982), Geochim. Cosmochim. Acta
 * 46:1011. Valid 0–90 °C there, 0–40 °C here, at ionic strength 0; T in kelvin, log to base 10.
 */
public final class Carbonates {
  private Carbonates() {}

  /** CO2(g) = CO2(aq), mol/(L atm): log KH = 108.3865 + 0.01985076 T − 6919.53/T − … */
  public static double pkHenry(double temperatureC) {
    double t = kelvin(temperatureC);
    return -(108.3865
        + 0.01985076 * t
        - 6919.53 / t
        - 40.45154 * StrictMath.log10(t)
        + 669365 / (t * t));
  }

  /** CO2(aq) + H2O = H⁺ + HCO3⁻. */
  public static double pk1(double temperatureC) {
    double t = kelvin(temperatureC);
    return -(-356.3094
        - 0.06091964 * t
        + 21834.37 / t
        + 126.8339 * StrictMath.log10(t)
        - 1684915 / (t * t));
  }

  /** HCO3⁻ = H⁺ + CO3²⁻. */
  public static double pk2(double temperatureC) {
    double t = kelvin(temperatureC);
    return -(-107.8871
        - 0.03252849 * t
        + 5151.79 / t
        + 38.92561 * StrictMath.log10(t)
        - 563713.9 / (t * t));
  }

  /** CaCO3 (calcite) = Ca²⁺ + CO3²⁻. */
  public static double pkCalcite(double temperatureC) {
    double t = kelvin(temperatureC);
    return -(-171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * StrictMath.log10(t));
  }

  /** H2O = H⁺ + OH⁻: pKw = 4470.99/T − 6.0875 + 0.01706 T (from memory). */
  public static double pkWater(double temperatureC) {
    double t = kelvin(temperatureC);
    return 4470.99 / t - 6.0875 + 0.01706 * t;
  }

  private static double kelvin(double temperatureC) {
    return Validity.WATER_C.check(temperatureC) + 273.15;
  }
}
