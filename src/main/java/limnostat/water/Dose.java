package limnostat.water;

/**
 * How much of a product a cubic metre of water needs for a given change. Multiply by the volume.
 * Molar masses from memory; purities are the usual ones unless given.
 */
public final class Dose {
  private static final Validity PERCENT =
      new Validity("strength", 1, 100, "%", "read the product's label");

  /** Usual strength as sold (common practice, no source). */
  public static final double MURIATIC_PERCENT = 31.45;

  public static final double DRY_ACID_PERCENT = 93.2;

  /** As flakes. */
  public static final double CALCIUM_CHLORIDE_PERCENT = 77;

  private static final double HCL_G_MOL = 36.461;
  private static final double NAHSO4_G_MOL = 120.06;
  private static final double NAHCO3_G_MOL = 84.007;
  private static final double NA2CO3_G_MOL = 105.988;
  private static final double CACL2_G_MOL = 110.984;
  private static final double CACO3_G_MOL = 100.087;

  /** Density of the acid against its strength, kg/L: 1 + strength/197, 1.16 at 31.45 % (memory). */
  private static final double ACID_PERCENT_PER_KG_L = 196.5625;

  private Dose() {}

  /**
   * Liquid chlorine, mL.
   *
   * @param chlorineG chlorine needed, g as Cl2 (mg/L × m³)
   * @param tradePercent g of Cl2 in 100 mL; not weight %
   */
  public static double liquidChlorineMl(double chlorineG, double tradePercent) {
    return chlorineG * 100 / PERCENT.check(tradePercent);
  }

  /** A solid chlorine product, g, by its % of available chlorine. */
  public static double solidChlorineG(double chlorineG, double availablePercent) {
    return chlorineG * 100 / PERCENT.check(availablePercent);
  }

  /** Running time of a cell, h. */
  public static double cellHours(double chlorineG, double chlorineGH) {
    return chlorineG / CELL_GH.check(chlorineGH);
  }

  private static final Validity CELL_GH =
      new Validity("cell output", 0.1, 10_000, "g/h", "read the cell's label");

  /**
   * Muriatic acid for a number of equivalents of acid (eq/L × 1000 × m³), mL.
   *
   * @param percent HCl by weight, up to 38 %
   */
  public static double muriaticAcidMl(double equivalents, double percent) {
    HCL_PERCENT.check(percent);
    double molL = percent * 10 * (1 + percent / ACID_PERCENT_PER_KG_L) / HCL_G_MOL;
    return equivalents / molL * 1000;
  }

  private static final Validity HCL_PERCENT =
      new Validity("muriatic acid", 5, 38, "%", "read the product's label");

  /** Dry acid (sodium bisulfate, 93.2 %) for a number of equivalents, g. */
  public static double dryAcidG(double equivalents) {
    return equivalents * NAHSO4_G_MOL * 100 / DRY_ACID_PERCENT;
  }

  /** Sodium bicarbonate, g per m³ for a rise of total alkalinity, mg/L as CaCO3. */
  public static double bicarbonateGM3(double riseMgL) {
    return riseMgL / CACO3_G_MOL * 2 * NAHCO3_G_MOL;
  }

  /** Soda ash (sodium carbonate), g per m³ for a rise of total alkalinity, mg/L as CaCO3. */
  public static double sodaAshGM3(double riseMgL) {
    return riseMgL / CACO3_G_MOL * NA2CO3_G_MOL;
  }

  /** Cyanuric acid, g per m³ for a rise of as many mg/L. */
  public static double stabiliserGM3(double riseMgL) {
    return riseMgL;
  }

  /** Salt, g per m³ for a rise of as many mg/L. */
  public static double saltGM3(double riseMgL) {
    return riseMgL;
  }

  /**
   * Calcium chloride, g per m³ for a rise of calcium hardness, mg/L as CaCO3.
   *
   * @param percent CaCl2 by weight: 77 as flakes, 75.5 as dihydrate, 100 dry
   */
  public static double calciumChlorideGM3(double riseMgL, double percent) {
    return riseMgL / CACO3_G_MOL * CACL2_G_MOL * 100 / PERCENT.check(percent);
  }

  /**
   * Non-chlorine oxidiser (monopersulfate, 4.7 % active oxygen), g per m³ that oxidises as much as
   * the given chlorine. One O stands for one Cl2, so it acts like 20.8 % of available chlorine. It
   * does not disinfect, and a test may read it as combined chlorine.
   */
  public static double monopersulfateGM3(double likeChlorineMgL) {
    return likeChlorineMgL * 15.999 / 70.906 / 0.047;
  }

  /**
   * Share of the water to replace in one go, 0–1: C1 = C0 (1 − f) + C_fill f.
   *
   * @throws IllegalArgumentException unless the fill water is below the target and the target is
   *     not above the present value
   */
  public static double replacedShare(double nowMgL, double targetMgL, double fillMgL) {
    dilutes(nowMgL, targetMgL, fillMgL);
    return (nowMgL - targetMgL) / (nowMgL - fillMgL);
  }

  /**
   * Pool volumes of fill water needed while filling and overflowing at the same time, well mixed: C
   * = C0 exp(−V/V0).
   */
  public static double overflowedVolumes(double nowMgL, double targetMgL, double fillMgL) {
    dilutes(nowMgL, targetMgL, fillMgL);
    return StrictMath.log((nowMgL - fillMgL) / (targetMgL - fillMgL));
  }

  private static void dilutes(double nowMgL, double targetMgL, double fillMgL) {
    if (!(fillMgL >= 0 && fillMgL < targetMgL && targetMgL <= nowMgL)) {
      throw new IllegalArgumentException(
          String.format(
              "dilution from %s to %s mg/L with water of %s mg/L cannot be; the fill water must"
                  + " hold less than the target, and the target no more than the pool",
              nowMgL, targetMgL, fillMgL));
    }
  }

  /** Volume of a round pool with straight walls, m³. */
  public static double roundPoolM3(double diameterM, double depthM) {
    return StrictMath.PI * diameterM * diameterM / 4 * depthM;
  }
}
