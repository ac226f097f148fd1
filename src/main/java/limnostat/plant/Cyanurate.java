package limnostat.plant;

/**
 * Where free chlorine sits: HOCl, OCl-, or on cyanurate.
 *
 * <p>Six species with the temperature set of Wahman (2018), Environ. Sci.: Water Res. Technol.
 * 4:1522, and Wahman and Alexander (2019), Environ. Eng. Sci. 36:283 [checked, abstracts]; HOCl by
 * Morris (1966) [memory].
 */
final class Cyanurate {
  static final double CHLORINE_MG_MMOL = 70.906;
  private static final double CYANURIC_ACID_MG_MMOL = 129.075;

  private Cyanurate() {}

  /** Share of cyanuric acid without chlorine that is H2Cy-. */
  static double ionisedShare(double ph, double waterC, double logActivity) {
    // pK6 = 1743/T + 1.12
    double pk6 = 1743 / Ions.kelvin(waterC) + 1.12 + logActivity;
    return 1 / (1 + Ions.antilog(pk6 - ph));
  }

  static void equilibrate(Water water) {
    double kelvin = Ions.kelvin(water.temperatureC);
    double activity = Ions.logActivity(water.saltMgL, water.temperatureC);
    // Morris: pKa = 3000/T - 10.0686 + 0.0253 T
    double pka = 3000 / kelvin - 10.0686 + 0.0253 * kelvin + activity;
    double oclPerHocl = Ions.antilog(water.ph - pka);
    double chlorine = water.freeChlorineMgL / CHLORINE_MG_MMOL;
    double cyanurate = water.cyanuricAcidMgL / CYANURIC_ACID_MG_MMOL;
    double ionised = ionisedShare(water.ph, water.temperatureC, activity);
    // pK7a = 2028/T - 2.15 (Cl2Cy- + H2O = HClCy- + HOCl), pK9a = 2229/T - 1.65 (HClCy- = H2Cy-);
    // both have the same charge on either side, so no activity; mmol/L instead of mol/L
    double k7 = 1000 * Ions.antilog(2.15 - 2028 / kelvin);
    double k9 = 1000 * Ions.antilog(1.65 - 2229 / kelvin);

    double hocl = solve(chlorine, cyanurate, 1 + oclPerHocl, 1 / ionised, 1 / k9, 1 / (k7 * k9));
    water.hoclMgL = hocl * CHLORINE_MG_MMOL;
    water.oclMgL = water.hoclMgL * oclPerHocl;
    water.boundMgL = StrictMath.max(0, water.freeChlorineMgL - water.hoclMgL - water.oclMgL);

    // relative to H2Cy- = 1: HClCy- = h/k9, Cl2Cy- = h²/(k7 k9)
    double chlorinated = hocl / k9 + hocl * hocl / (k7 * k9);
    double anions = cyanurate * chlorinated / (1 / ionised + chlorinated);
    water.chlorineChargeMmolL = hocl * oclPerHocl + anions * (1 - ionised);
  }

  /**
   * The one root h in 0..chlorine/a of {@code a h + cy (b1 h + 2 b2 h²)/(b0 + b1 h + b2 h²) =
   * chlorine}: Newton within a bracket that shrinks, since the left side rises with h.
   */
  private static double solve(
      double chlorine, double cyanurate, double a, double b0, double b1, double b2) {
    double low = 0;
    double high = chlorine / a;
    if (cyanurate <= 0 || high <= 0) {
      return high;
    }
    double h = StrictMath.min(high, chlorine / (a + cyanurate * b1 / b0));
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
      if (StrictMath.abs(next - h) <= 1e-12 * h) {
        return next;
      }
      h = next;
    }
    return h;
  }
}
