package limnostat.water;

/**
 * How dissolved salts change activities: the Davies equation.
 *
 * <p>log10 γ = −A z² (√I/(1+√I) − 0.3 I), A = 1.8246·10⁶ (ε T)^−1.5, with ε = 87.740 − 0.40008 t +
 * 9.398·10⁻⁴ t² − 1.410·10⁻⁶ t³ of Malmberg and Maryott (1956), all from memory. Textbooks quote A
 * = 0.509 at 25 °C; this gives 0.5115. Valid here at 0–40 °C and up to about 0.5 mol/L.
 */
public final class IonicStrength {
  private static final double NACL_G_MOL = 58.443;

  private IonicStrength() {}

  /** Ionic strength of a salt pool, mol/L: salt over its molar mass. */
  public static double ofSaltMolL(double saltMgL) {
    return saltMgL / (1000 * NACL_G_MOL);
  }

  /**
   * Ionic strength of fresh water, mol/L: I = 2.5·10⁻⁵ TDS (Langelier; Stumm and Morgan; from
   * memory).
   *
   * @param dissolvedSolidsMgL total dissolved solids, mg/L
   */
  public static double ofDissolvedSolidsMolL(double dissolvedSolidsMgL) {
    return 2.5e-5 * dissolvedSolidsMgL;
  }

  /**
   * Debye–Hückel's A, (L/mol)^½.
   *
   * @param temperatureC 0–40 °C
   */
  public static double debyeHueckelA(double temperatureC) {
    double t = temperatureC;
    double permittivity = 87.740 - 0.40008 * t + 9.398e-4 * t * t - 1.410e-6 * t * t * t;
    return 1.8246e6 * StrictMath.pow(permittivity * (t + 273.15), -1.5);
  }

  /**
   * log10 γ of an ion of charge ±1; for charge z it is z² times this. Never above 0.
   *
   * @param ionicStrengthMolL 0–0.5 mol/L
   * @param temperatureC 0–40 °C
   */
  public static double logActivity(double ionicStrengthMolL, double temperatureC) {
    double root = StrictMath.sqrt(ionicStrengthMolL);
    return -debyeHueckelA(temperatureC) * (root / (1 + root) - 0.3 * ionicStrengthMolL);
  }
}
