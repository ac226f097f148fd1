package limnostat.water;

/**
 * Sources of chlorine, and what each adds besides, per mg/L of free chlorine. All figures are
 * calculated from the reactions for the pure part of the product. Fillers come on top.
 */
public enum ChlorineForm {
  /** NaOCl. Made from Cl2 + 2 NaOH, so it brings the same amount of salt again. */
  LIQUID("liquid", "liquid chlorine (sodium hypochlorite)", false, 0, 0, 1.648, 1, 12.5),
  /** Ca(OCl)2. */
  CALCIUM_HYPOCHLORITE("cal-hypo", "calcium hypochlorite, granular", false, 0, 0.706, 0.824, 1, 65),
  /**
   * NaCl2Cy·2H2O: NaCl2Cy + 2 H2O → Na⁺ + H2Cy⁻ + 2 HOCl, half an equivalent of base per mole of
   * HOCl.
   */
  DICHLOR("dichlor", "dichlor, granular", true, 0.910, 0, 0.824, 0.5, 56),
  /** Cl3Cy + 3 H2O → H3Cy + 3 HOCl. */
  TRICHLOR("trichlor", "trichlor tablets", true, 0.607, 0, 0.824, 0, 90),
  /** LiOCl in salt and sulfate, 35 % available chlorine (from memory). */
  LITHIUM_HYPOCHLORITE("lithium", "lithium hypochlorite", false, 0, 0, 0.824, 1, 35),
  /** Cl⁻ + H2O → OCl⁻ + H2: the salt comes back as the chlorine is spent. */
  SALT_CELL("salt-cell", "salt cell", false, 0, 0, 0, 1, 0);

  private final String key;
  private final String title;
  private final boolean stabilised;
  private final double cyanuricAcidPerMg;
  private final double calciumHardnessPerMg;
  private final double saltPerMg;
  private final double baseEqPerMol;
  private final double usualPercent;

  ChlorineForm(
      String key,
      String title,
      boolean stabilised,
      double cyanuricAcidPerMg,
      double calciumHardnessPerMg,
      double saltPerMg,
      double baseEqPerMol,
      double usualPercent) {
    this.key = key;
    this.title = title;
    this.stabilised = stabilised;
    this.cyanuricAcidPerMg = cyanuricAcidPerMg;
    this.calciumHardnessPerMg = calciumHardnessPerMg;
    this.saltPerMg = saltPerMg;
    this.baseEqPerMol = baseEqPerMol;
    this.usualPercent = usualPercent;
  }

  /** Its name on a command line. */
  public String key() {
    return key;
  }

  public String title() {
    return title;
  }

  /**
   * Whether it contains stabiliser. Stabilised and unstabilised products must never meet in a
   * feeder.
   */
  public boolean stabilised() {
    return stabilised;
  }

  /** Rise of stabiliser, mg/L per mg/L of free chlorine. */
  public double cyanuricAcidPerMg() {
    return cyanuricAcidPerMg;
  }

  /** Rise of calcium hardness, mg/L as CaCO3 per mg/L of free chlorine. */
  public double calciumHardnessPerMg() {
    return calciumHardnessPerMg;
  }

  /** Rise of salt, mg/L as NaCl per mg/L of free chlorine, once that is spent. */
  public double saltPerMg() {
    return saltPerMg;
  }

  /** Base that goes in with it, eq per mg of Cl2, counted relative to HOCl and H3Cy. */
  public double alkalinityAddedEqPerMg() {
    return baseEqPerMol / Cyanurate.CL2_MG_MOL;
  }

  /**
   * Change of total alkalinity, mg/L as CaCO3 per mg/L of free chlorine, once that is spent: (base
   * − 1) equivalents per mole. 0 for hypochlorites and the cell, −0.35 for dichlor, −0.71 for
   * trichlor.
   */
  public double alkalinityPerMg() {
    return (baseEqPerMol - 1) * Alkalinity.CACO3_MG_EQ / Cyanurate.CL2_MG_MOL;
  }

  /**
   * Its acid as muriatic acid (31.45 %), mL per g of chlorine, once spent; 0 if it brings no acid.
   */
  public double acidBroughtMlPerG() {
    return Dose.muriaticAcidMl((1 - baseEqPerMol) / Cyanurate.CL2_MG_MOL * 1000, 31.45);
  }

  /**
   * Usual strength, % available chlorine by weight. For liquid it is trade % (g Cl2 in 100 mL), for
   * the cell 0. Common practice, no source.
   */
  public double usualPercent() {
    return usualPercent;
  }
}
