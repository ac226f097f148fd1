package limnostat.water;

/**
 * The oxidation-reduction potential that a platinum probe shows in chlorinated water.
 *
 * <p>Theory for HOCl + H⁺ + 2e⁻ = Cl⁻ + H2O gives RT ln 10/2F, 29.58 mV at 25 °C, per decade of
 * HOCl, and the same amount less per pH unit. Real probes show a mixed potential: 600–800 mV
 * against Ag/AgCl, with 30–90 mV per decade (common practice, no source). So the level and the
 * slope here are only the start of a fit to the site. Never take free chlorine from ORP without a
 * person's test.
 */
public final class Orp {
  /**
   * Initial slope, mV per decade of HOCl: near the middle of the usual range (common practice, no
   * source).
   */
  public static final double SLOPE_MV = 50;

  /**
   * Initial potential at 1 mg/L HOCl and pH 7.5, mV (engineering judgement: 700 mV at 3 mg/L of
   * free chlorine and 30 mg/L of stabiliser).
   */
  public static final double LEVEL_MV = 768;

  /**
   * The logarithm is cut off below this HOCl, as other couples take over the electrode (engineering
   * judgement).
   */
  static final double HOCL_FLOOR_MG_L = 1e-4;

  private Orp() {}

  /** Expected potential, mV: E = a + b log10 [HOCl] − (R T ln 10/2F)(pH − 7.5). */
  public static double expectedMv(double hoclMgL, double ph, double temperatureC) {
    return LEVEL_MV
        + SLOPE_MV * StrictMath.log10(Math.max(hoclMgL, HOCL_FLOOR_MG_L))
        - theoreticalSlopeMv(temperatureC) * (ph - 7.5);
  }

  /** Theoretical slope, mV per decade of HOCl and, with a minus sign, per pH unit: R T ln 10/2F. */
  public static double theoreticalSlopeMv(double temperatureC) {
    return Nernst.slopeMvPerPh(temperatureC) / 2;
  }

  /** Standard potential of HOCl + H⁺ + 2e⁻ = Cl⁻ + H2O against SHE, mV (CRC; from memory). */
  private static final double STANDARD_MV = 1482;

  private static final double HOCL_MG_MOL = 70906; // as Cl2
  private static final double CHLORIDE_MG_MOL = 35453;

  /**
   * The theoretical potential, which no platinum probe shows, mV against SHE: E = E0 + (RT/2F)
   * ln([HOCl] {H⁺}/[Cl⁻]).
   *
   * @param hoclMgL above 0, as Cl2
   * @param ph 5–10
   * @param chlorideMgL above 0
   * @param temperatureC 0–40 °C
   */
  public static double theoreticalMv(
      double hoclMgL, double ph, double chlorideMgL, double temperatureC) {
    Validity.PH.check(ph);
    Validity.WATER_C.check(temperatureC);
    POSITIVE_MG_L.check(hoclMgL);
    POSITIVE_MG_L.check(chlorideMgL);
    double ratio = (hoclMgL / HOCL_MG_MOL) / (chlorideMgL / CHLORIDE_MG_MOL);
    return STANDARD_MV + theoreticalSlopeMv(temperatureC) * (StrictMath.log10(ratio) - ph);
  }

  private static final Validity POSITIVE_MG_L =
      new Validity(
          "HOCl and chloride",
          Double.MIN_VALUE,
          1e5,
          "mg/L",
          "the couple has no potential without both");
}
