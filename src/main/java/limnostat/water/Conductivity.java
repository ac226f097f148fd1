package limnostat.water;

/**
 * Conductivity of salt in water.
 *
 * <p>Molar conductivity of NaCl at 25 °C, Robinson and Stokes (from memory): 118.51, 115.76, 111.06
 * and 106.74 S cm²/mol at 0.01, 0.02, 0.05 and 0.1 mol/L, linear in √c between them. The last line
 * is extrapolated to 6 g/L. Other ions of a pool come on top.
 */
public final class Conductivity {
  private static final double NACL_G_MOL = 58.443;

  private static final Validity SALT =
      new Validity("salt", 0.585, 6, "g/L", "the conductivity table covers salt pools only");
  private static final Validity TEMPERATURE =
      new Validity("water temperature", 15, 35, "degC", "bring the sample nearer to 25 degC");

  /** From saturated NaCl's 226.0 mS/cm at 20 °C and 251.3 at 25 °C (secondary source), 1/°C. */
  private static final double PER_C = 0.0201;

  private static final Table MOLAR =
      new Table(
          "root of salt",
          "(mol/L)^0.5",
          "the conductivity table covers salt pools only",
          0.1,
          118.51,
          StrictMath.sqrt(0.02),
          115.76,
          StrictMath.sqrt(0.05),
          111.06,
          StrictMath.sqrt(0.1),
          106.74,
          2 * StrictMath.sqrt(0.1) - StrictMath.sqrt(0.05),
          2 * 106.74 - 111.06);

  private Conductivity() {}

  /**
   * Conductivity of a salt solution, mS/cm.
   *
   * @param saltGL salt as NaCl, 0.585–6 g/L
   * @param temperatureC 15–35 °C
   */
  public static double ofSaltMsCm(double saltGL, double temperatureC) {
    double molL = SALT.check(saltGL) / NACL_G_MOL;
    double at25 = molL * MOLAR.read(StrictMath.sqrt(molL));
    return at25 * (1 + PER_C * (TEMPERATURE.check(temperatureC) - 25));
  }
}
