package limnostat.water;

/**
 * Total and carbonate alkalinity. A titration also counts the stabiliser's anion, but only the
 * carbonate part belongs in a saturation index.
 */
public final class Alkalinity {
  /** mg of CaCO3 per equivalent (molar mass 100.087). */
  public static final double CACO3_MG_EQ = 50043.5;

  /**
   * First acid constant of cyanuric acid, O'Brien, Morris and Butler (1974; from memory), 25 °C.
   */
  private static final double PK_CYANURIC = 6.88;

  private Alkalinity() {}

  /**
   * What each mg/L of stabiliser adds to total alkalinity, mg/L as CaCO3: 0.3877/(1 +
   * 10^(6.88−pH)). A published table (secondary) gives 0.31 at pH 7.4, where this gives 0.298.
   *
   * @param ph 5–10
   */
  public static double cyanurateShare(double ph) {
    Validity.PH.check(ph);
    return CACO3_MG_EQ / Cyanurate.CYA_MG_MOL / (1 + PowerOfTen.of(PK_CYANURIC - ph));
  }

  /**
   * Carbonate alkalinity, mg/L as CaCO3: TA − CYA × share. A result below 0 means that one of the
   * tests is wrong, as stabiliser alone explains more than the total.
   *
   * @param totalMgL mg/L as CaCO3
   * @param cyanuricAcidMgL mg/L
   * @param ph 5–10
   */
  public static double carbonateMgL(double totalMgL, double cyanuricAcidMgL, double ph) {
    return totalMgL - cyanuricAcidMgL * cyanurateShare(ph);
  }
}
