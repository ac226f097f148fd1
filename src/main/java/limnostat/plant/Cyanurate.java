package limnostat.plant;

/** The forms of free chlorine: HOCl, OCl-, or bound to cyanurate. Six species. */
final class Cyanurate {
  static final double CHLORINE_MG_MMOL = 70.906;
  private static final double CYANURIC_ACID_MG_MMOL = 129.075;

  private Cyanurate() {}

  static void equilibrate(Water water) {
    Constants at = water.constants();
    double h = Ions.antilog(-water.ph) * Ions.activity(water.saltMgL, water.temperatureC);
    double oclPerHocl = at.kHocl() / h;
    double chlorine = water.freeChlorineMgL / CHLORINE_MG_MMOL;
    double cyanurate = water.cyanuricAcidMgL / CYANURIC_ACID_MG_MMOL;
    // H2Cy- as a share of the cyanuric acid without chlorine
    double ionised = 1 / (1 + h / at.k6());
    // k7 and k9 have the same charge on both sides, so no activity correction
    double b1 = 1 / at.k9();
    double b2 = b1 / at.k7();

    double last = water.hoclMgL / CHLORINE_MG_MMOL;
    double hocl = solve(chlorine, cyanurate, 1 + oclPerHocl, 1 / ionised, b1, b2, last);
    water.hoclMgL = hocl * CHLORINE_MG_MMOL;
    water.oclMgL = water.hoclMgL * oclPerHocl;
    water.boundMgL = StrictMath.max(0, water.freeChlorineMgL - water.hoclMgL - water.oclMgL);

    // relative to H2Cy- = 1: HClCy- = h/k9, Cl2Cy- = h²/(k7 k9)
    double chlorinated = hocl * (b1 + b2 * hocl);
    double anions = cyanurate * chlorinated / (1 / ionised + chlorinated);
    water.chlorineChargeMmolL = hocl * oclPerHocl + anions * (1 - ionised);
  }

  /**
   * The only root h in 0..chlorine/a of {@code a h + cy (b1 h + 2 b2 h²)/(b0 + b1 h + b2 h²) =
   * chlorine}. Newton's method within a bracket that shrinks, since the left side rises with h. It
   * starts from a guess if the guess lies in the bracket.
   */
  private static double solve(
      double chlorine, double cyanurate, double a, double b0, double b1, double b2, double guess) {
    double low = 0;
    double high = chlorine / a;
    if (cyanurate <= 0 || high <= 0) {
      return high;
    }
    double h = guess > low && guess < high ? guess : chlorine / (a + cyanurate * b1 / b0);
    for (int i = 0; i < 60; i++) {
      double below = b0 + h * (b1 + b2 * h);
      double above = h * (b1 + 2 * b2 * h);
      double excess = a * h + cyanurate * above / below - chlorine;
      if (excess > 0) {
        high = h;
      } else {
        low = h;
      }
      double slope =
          a + cyanurate * ((b1 + 4 * b2 * h) * below - above * (b1 + 2 * b2 * h)) / (below * below);
      double next = h - excess / slope;
      if (!(next > low && next < high)) {
        next = 0.5 * (low + high);
      }
      // with Newton's method the next step would be of the order of this one's square
      if (StrictMath.abs(next - h) <= 1e-6 * h) {
        return next;
      }
      h = next;
    }
    return h;
  }
}
