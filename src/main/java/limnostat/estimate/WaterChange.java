package limnostat.estimate;

import limnostat.water.Alkalinity;

/**
 * Change by an addition once it has mixed, all in mg/L; below 0: it removes.
 *
 * @param freeChlorineMgL free chlorine, before any of it is used up
 * @param stabiliserMgL cyanuric acid
 * @param saltMgL as NaCl, once chlorine is spent
 * @param calciumHardnessMgL as CaCO3
 * @param totalAlkalinityMgL as CaCO3, once chlorine is spent
 * @param baseMgL base that moves pH at once, as CaCO3; below 0: acid
 */
public record WaterChange(
    double freeChlorineMgL,
    double stabiliserMgL,
    double saltMgL,
    double calciumHardnessMgL,
    double totalAlkalinityMgL,
    double baseMgL) {

  static final WaterChange NONE = new WaterChange(0, 0, 0, 0, 0, 0);

  /**
   * Acid in 1 m³.
   *
   * @param equivalents amount of acid, eq
   * @param saltG salt that it leaves, g
   */
  static WaterChange acid(double equivalents, double saltG) {
    double mgL = equivalents * Alkalinity.CACO3_MG_EQ / 1000;
    return new WaterChange(0, 0, saltG, 0, -mgL, -mgL);
  }

  /**
   * A base that brings carbon with it.
   *
   * @param lifts share of its alkalinity that moves pH
   */
  static WaterChange base(double totalAlkalinityMgL, double lifts) {
    return new WaterChange(0, 0, 0, 0, totalAlkalinityMgL, lifts * totalAlkalinityMgL);
  }

  WaterChange withStabiliser(double mgL) {
    return new WaterChange(
        freeChlorineMgL, mgL, saltMgL, calciumHardnessMgL, totalAlkalinityMgL, baseMgL);
  }

  WaterChange withSalt(double mgL) {
    return new WaterChange(
        freeChlorineMgL, stabiliserMgL, mgL, calciumHardnessMgL, totalAlkalinityMgL, baseMgL);
  }

  WaterChange withCalciumHardness(double mgL) {
    return new WaterChange(
        freeChlorineMgL, stabiliserMgL, saltMgL, mgL, totalAlkalinityMgL, baseMgL);
  }

  /** The change times a factor. */
  public WaterChange times(double factor) {
    return new WaterChange(
        factor * freeChlorineMgL,
        factor * stabiliserMgL,
        factor * saltMgL,
        factor * calciumHardnessMgL,
        factor * totalAlkalinityMgL,
        factor * baseMgL);
  }

  WaterChange plus(WaterChange other) {
    return new WaterChange(
        freeChlorineMgL + other.freeChlorineMgL,
        stabiliserMgL + other.stabiliserMgL,
        saltMgL + other.saltMgL,
        calciumHardnessMgL + other.calciumHardnessMgL,
        totalAlkalinityMgL + other.totalAlkalinityMgL,
        baseMgL + other.baseMgL);
  }
}
