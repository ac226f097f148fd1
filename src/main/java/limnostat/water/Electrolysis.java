package limnostat.water;

/**
 * A salt cell by Faraday's law: 2 Cl⁻ → Cl2 + 2 e⁻ and 2 H2O + 2 e⁻ → H2 + 2 OH⁻.
 *
 * <p>Each ampere-hour makes 1.3228 g of chlorine and 0.4564 L of hydrogen (25 °C, 1 atm) in each
 * gap between plates. The current efficiency of the chlorine is 0.70–0.95 and falls with low salt,
 * cold water, scale and age (common practice, no source). Hydrogen forms at the full current
 * whatever the efficiency. A cell without flow fills with it, so the cell's power must be off
 * without flow.
 */
public final class Electrolysis {
  private static final double CL2_G_MOL = 70.906;
  private static final double FARADAY = 96485.33212;

  /** Litres of gas per mole at 25 °C and 1 atm. */
  private static final double GAS_L_MOL = 0.082057366 * 298.15;

  /** Salt range that cells are built for, mg/L (secondary source); 2700–3400 is common practice. */
  public static final Validity SALT_MG_L =
      new Validity(
          "salt for a cell",
          2500,
          6000,
          "mg/L",
          "add salt, or dilute; keep the cell off until then");

  /**
   * Below about 10–15 °C a cell should be off (common practice, no source). This uses the upper
   * end.
   */
  public static final Validity CELL_WATER_C =
      new Validity("water temperature for a cell", 15, 40, "degC", "dose liquid chlorine instead");

  private static final Validity CURRENT =
      new Validity("cell current", 0, 200, "A", "read it again at the cell's leads");
  private static final Validity EFFICIENCY =
      new Validity("current efficiency", 0, 1, "", "clean the cell and test its output again");

  private Electrolysis() {}

  /**
   * Chlorine output, g/h.
   *
   * @param currentA through the stack, 0–200 A
   * @param gaps number of gaps between plates in series
   * @param efficiency 0–1
   */
  public static double chlorineGH(double currentA, int gaps, double efficiency) {
    return molPerHour(currentA, gaps) * CL2_G_MOL * EFFICIENCY.check(efficiency);
  }

  /** Current efficiency of a cell from its measured output, 0–1. */
  public static double efficiency(double chlorineGH, double currentA, int gaps) {
    return EFFICIENCY.check(chlorineGH / chlorineGH(currentA, gaps, 1));
  }

  /** Hydrogen output, L/h at 25 °C and 1 atm. */
  public static double hydrogenLH(double currentA, int gaps) {
    return molPerHour(currentA, gaps) * GAS_L_MOL;
  }

  /**
   * Time until a headspace without flow contains 4 % of hydrogen, above which it burns (from
   * memory), s.
   *
   * @param headspaceL gas that collects over still water, L
   */
  public static double secondsToFlammable(double currentA, int gaps, double headspaceL) {
    return 0.04 * headspaceL / hydrogenLH(currentA, gaps) * 3600;
  }

  private static double molPerHour(double currentA, int gaps) {
    return CURRENT.check(currentA) * gaps * 3600 / (2 * FARADAY);
  }
}
