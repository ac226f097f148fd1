package limnostat.water;

/**
 * Total and carbonate alkalinity. A titration counts stabiliser's anion too; only carbonate belongs
 * in a saturation index.
 */
public final class Alkalinity {
  /** mg of CaCO3 an equivalent (molar mass 100.087). */
  public static final double CACO3_MG_EQ = 50043.5;

  /**
   * First acid constant of cyanuric acid, O'Brien, Morris and Butler (1974; from memory), 25 °C.
   */
  private static final double PK_CYANURIC = 6.88;

  private Alkalinity() {}

  /**
   * What a mg/L of stabiliser gives to total alkalinity, mg/L as CaCO3: 0.3877/(1 + 10^(6.88−pH)).
   * A published table (secondary) has 0.31 at pH 7.4 where this has 0.298.
   *
   * @param ph 5–10
   */
  public static double cyanurateShare(double ph) {
    Validity.PH.check(ph);
    return CACO3_MG_EQ / Cyanurate.CYA_MG_MOL / (1 + PowerOfTen.of(PK_CYANURIC - ph));
  }

  /**
   * Carbonate alkalinity, mg/L as CaCO3: TA − CYA × share. Below 0 where stabiliser is more than
   * all of it: then one of the tests is wrong.
   *
   * @param totalMgL mg/L as CaCO3
   * @param cyanuricAcidMgL mg/L
   * @param ph 5–10
   */
  public static double carbonateMgL(double totalMgL, double cyanuricAcidMgL, double ph) {
    return totalMgL - cyanuricAcidMgL * cyanurateShare(ph);
  }
}
