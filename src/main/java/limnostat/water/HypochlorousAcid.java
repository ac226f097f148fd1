package limnostat.water;

/**
 * HOCl = H⁺ + OCl⁻.
 *
 * <p>Valid 0–40 °C. Salt at 3–6 g/L lowers pKa by about 0.1, which lowers the HOCl share by up to 6
 * percentage points. The scan assumes an ionic strength of 0, and the fit to the site absorbs the
 * difference.
 */
public final class HypochlorousAcid {
  private HypochlorousAcid() {}

  /**
   * Acid constant: pKa = 3000.00/T − 10.0686 + 0.0253 T, Morris (1966), J. Phys. Chem. 70:3798
   * (form from memory; the 25 °C value agrees with the published 7.53–7.54).
   *
   * @param temperatureC 0–40 °C
   */
  public static double pKa(double temperatureC) {
    double kelvin = temperatureC + 273.15;
    return 3000.00 / kelvin - 10.0686 + 0.0253 * kelvin;
  }

  /**
   * The same in salt water, with pH an activity: pKa′ = pKa + log10 γ(OCl⁻).
   *
   * @param ionicStrengthMolL 0–0.5 mol/L
   */
  public static double pKa(double temperatureC, double ionicStrengthMolL) {
    return pKa(temperatureC) + IonicStrength.logActivity(ionicStrengthMolL, temperatureC);
  }

  /** Fraction of (HOCl + OCl⁻) that is HOCl, 0–1: f = 1/(1 + 10^(pH − pKa)). */
  public static double fraction(double ph, double temperatureC) {
    return 1 / (1 + PowerOfTen.of(ph - pKa(temperatureC)));
  }

  /** The same at an ionic strength of 0–0.5 mol/L. */
  public static double fraction(double ph, double temperatureC, double ionicStrengthMolL) {
    return 1 / (1 + PowerOfTen.of(ph - pKa(temperatureC, ionicStrengthMolL)));
  }
}
