package limnostat.water;

/**
 * Whether water dissolves calcium carbonate (below 0) or deposits it (above 0): pH − pHs.
 *
 * <p>There are three formulas for pHs. They differ by up to 0.2 and respond differently to salt, so
 * name the form, and never compare one with another. All of them use carbonate alkalinity.
 */
public final class SaturationIndex {
  private static final Validity HARDNESS =
      new Validity("calcium hardness", 5, 2000, "mg/L", "test again; add calcium to soft water");
  private static final Validity ALKALINITY =
      new Validity(
          "carbonate alkalinity",
          5,
          1000,
          "mg/L",
          "test alkalinity and stabiliser again; raise alkalinity with sodium bicarbonate");
  private static final Validity DISSOLVED_SOLIDS =
      new Validity("total dissolved solids", 50, 10_000, "mg/L", "the index is for pool water");

  /** The factor form's rows: 32 °F 0.0 … 105 °F 0.9 (secondary source). */
  private static final Table TEMPERATURE_FACTOR =
      new Table(
          "water temperature",
          "degF",
          "use the field form",
          32,
          0.0,
          46,
          0.2,
          60,
          0.4,
          66,
          0.5,
          76,
          0.6,
          84,
          0.7,
          94,
          0.8,
          105,
          0.9);

  private SaturationIndex() {}

  /**
   * What the index is calculated from.
   *
   * @param ph 5–10
   * @param temperatureC 0–40 °C
   * @param calciumHardnessMgL 5–2000 mg/L as CaCO3
   * @param carbonateAlkalinityMgL 5–1000 mg/L as CaCO3, without stabiliser
   * @param dissolvedSolidsMgL 50–10000 mg/L
   */
  public record Balance(
      double ph,
      double temperatureC,
      double calciumHardnessMgL,
      double carbonateAlkalinityMgL,
      double dissolvedSolidsMgL) {
    /**
     * @throws OutsideValidityException outside these
     */
    public Balance {
      Validity.PH.check(ph);
      Validity.WATER_C.check(temperatureC);
      HARDNESS.check(calciumHardnessMgL);
      ALKALINITY.check(carbonateAlkalinityMgL);
      DISSOLVED_SOLIDS.check(dissolvedSolidsMgL);
    }
  }

  /**
   * Field form (from memory): pHs = 9.3 + A + B − C − D; A = (log TDS − 1)/10, B = −13.12 log(t +
   * 273) + 34.55, C = log CH − 0.4, D = log TA.
   */
  public static double fieldForm(Balance water) {
    double a = (StrictMath.log10(water.dissolvedSolidsMgL) - 1) / 10;
    double b = -13.12 * StrictMath.log10(water.temperatureC + 273) + 34.55;
    double c = StrictMath.log10(water.calciumHardnessMgL) - 0.4;
    double d = StrictMath.log10(water.carbonateAlkalinityMgL);
    return water.ph - (9.3 + a + b - c - d);
  }

  /**
   * Thermodynamic form (after Standard Methods 2330): pHs = pK2 − pKsp + pCa + pAlk + 5 pfm, pfm =
   * −log γ1 at I = 2.5·10⁻⁵ TDS; constants of {@link Carbonates}.
   */
  public static double thermodynamicForm(Balance water) {
    double t = water.temperatureC;
    double pfm =
        -IonicStrength.logActivity(
            IonicStrength.ofDissolvedSolidsMolL(water.dissolvedSolidsMgL), t);
    double pCalcium = -StrictMath.log10(water.calciumHardnessMgL / (2 * Alkalinity.CACO3_MG_EQ));
    double pAlkalinity = -StrictMath.log10(water.carbonateAlkalinityMgL / Alkalinity.CACO3_MG_EQ);
    return water.ph
        - (Carbonates.pk2(t) - Carbonates.pkCalcite(t) + pCalcium + pAlkalinity + 5 * pfm);
  }

  /**
   * Factor form: pH + TF + CF + AF − 12.1, or − 12.2 above 1000 mg/L of dissolved solids (the 12.2
   * from memory); TF from a table of 32–105 °F (secondary), CF = log CH − 0.4, AF = log TA.
   */
  public static double factorForm(Balance water) {
    double constant = water.dissolvedSolidsMgL > 1000 ? 12.2 : 12.1;
    return water.ph
        + TEMPERATURE_FACTOR.read(UsUnits.fahrenheit(water.temperatureC))
        + StrictMath.log10(water.calciumHardnessMgL)
        - 0.4
        + StrictMath.log10(water.carbonateAlkalinityMgL)
        - constant;
  }
}
