package limnostat.water;

/** How far acid and base move the pH of pool water, and how fast pH can move by itself at most. */
public final class PhChange {
  private static final double LN_10 = StrictMath.log(10);

  /**
   * Carbonic acid's constants at 25 °C (Plummer and Busenberg 1982, as in {@link Carbonates}),
   * corrected for an ionic strength of 0.03 mol/L (Davies), which lowers each.
   */
  private static final double PK1 = 6.28;

  private static final double PK2 = 10.11;

  /** Cyanuric acid's constant, as in {@link Alkalinity}. */
  private static final double PK_CYANURIC = 6.88;

  /** Range in which the formula is used. Beyond it the capacity only grows. */
  private static final double PH_MIN = 6;

  private static final double PH_MAX = 9;

  /** Carbonate is taken to be at least this share of total alkalinity (engineering judgement). */
  private static final double CARBONATE_LEAST = 0.2;

  /**
   * Largest share of its carbon dioxide that water loses in a day (engineering judgement). Still
   * water under wind loses 0.1 to 0.5 m a day over a depth of a metre or less. While water flows, a
   * cell's hydrogen adds as much again, and so do jets and falls.
   */
  private static final double OUTGASSING_STILL_PER_DAY = 1;

  private static final double OUTGASSING_FLOWING_PER_DAY = 3;

  /**
   * Fastest fall of pH by itself, 1/h: spent chlorine, people, rain, algae at night (engineering
   * judgement; 8 mg/L of chlorine spent in a day accounts for 0.02).
   */
  private static final double FALL_PER_H = 0.05;

  private PhChange() {}

  /**
   * Buffer capacity, dAlk/dpH, eq/L per unit of pH: ln 10 (CT (a0 a1 + 4 a0 a2 + a1 a2) + CyT c (1
   * − c)), with CT from the carbonate alkalinity. Chlorine is left out, and the temperature is 25
   * °C.
   *
   * @param totalAlkalinityMgL mg/L as CaCO3, above 0
   * @param cyanuricAcidMgL mg/L
   * @param ph clipped to 6–9
   */
  public static double capacityEqL(double totalAlkalinityMgL, double cyanuricAcidMgL, double ph) {
    double at = Math.max(PH_MIN, Math.min(PH_MAX, ph));
    double carbonateMgL =
        Math.max(
            CARBONATE_LEAST * totalAlkalinityMgL,
            Alkalinity.carbonateMgL(totalAlkalinityMgL, cyanuricAcidMgL, at));
    double dioxide = StrictMath.pow(10, PK1 - at);
    double carbonate = StrictMath.pow(10, at - PK2);
    double a1 = 1 / (1 + dioxide + carbonate);
    double a0 = dioxide * a1;
    double a2 = carbonate * a1;
    double carbonMolL = carbonateMgL / Alkalinity.CACO3_MG_EQ / (a1 + 2 * a2);
    double c = 1 / (1 + StrictMath.pow(10, PK_CYANURIC - at));
    double cyanurateMolL = cyanuricAcidMgL / Cyanurate.CYA_MG_MOL;
    return LN_10 * (carbonMolL * (a0 * a1 + 4 * a0 * a2 + a1 * a2) + cyanurateMolL * c * (1 - c));
  }

  /**
   * Fastest rise by itself, pH units per second. Carbon dioxide leaves, dCT/dt = −λ CT a0, and
   * alkalinity stays, so dpH/dt = λ CT a0 (a1 + 2 a2)/β, which is at most λ/ln 10, as β is more
   * than ln 10 CT a0 (a1 + 2 a2).
   *
   * @param flowing whether the pump runs
   */
  public static double risePerS(boolean flowing) {
    double lossPerDay = flowing ? OUTGASSING_FLOWING_PER_DAY : OUTGASSING_STILL_PER_DAY;
    return lossPerDay / LN_10 / 86_400;
  }

  /** Fastest fall by itself, pH units per second. */
  public static double fallPerS() {
    return FALL_PER_H / 3600;
  }
}
