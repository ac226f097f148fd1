package limnostat.plant;

/** pH from the charge balance, and its drift as carbon dioxide escapes. */
public final class Carbonate {
  private static final double LN_10 = StrictMath.log(10);
  private static final double CYANURIC_ACID_MG_MMOL = 129.075;
  private static final double AIR_CO2_ATM = 420e-6;

  private final Settings settings;
  private final double depthM;

  /**
   * @param transferMDay transfer velocity of carbon dioxide through the surface, m/day; still water
   *     under light wind 0.1–1 [judgement]
   * @param strippingPerDay further loss while a cell runs at full current and its hydrogen strips
   *     the water, 1/day [judgement; that cells raise pH in this way: memory]
   */
  public record Settings(double transferMDay, double strippingPerDay) {}

  Carbonate(Settings settings, double depthM) {
    this.settings = settings;
    this.depthM = depthM;
  }

  /** Sets the pH and the carbon dioxide of the water from its alkalinity and carbon. */
  static void equilibrate(Water water) {
    Constants at = water.constants();
    double activity = Ions.activity(water.saltMgL, water.temperatureC);
    double k1 = at.k1() / activity;
    double k2 = at.k2() / (activity * activity * activity);
    double kw = at.kw() / activity;
    double k6 = at.k6() / activity;
    double cyanurate = water.cyanuricAcidMgL / CYANURIC_ACID_MG_MMOL;
    double ph = water.ph;
    for (int i = 0; i < 60; i++) {
      double h = Ions.antilog(-ph);
      double denominator = h * h + k1 * h + k1 * k2;
      double a0 = h * h / denominator;
      double a1 = k1 * h / denominator;
      double a2 = k1 * k2 / denominator;
      double c = k6 / (k6 + h);
      // Alk = CT (a1 + 2 a2) + CyT c + that of chlorine + Kw/H - H, in mmol/L; H from activity
      double hydrogenMmolL = 1000 * h / activity;
      double hydroxideMmolL = 1000 * kw / h;
      double excess =
          water.carbonMmolL * (a1 + 2 * a2)
              + cyanurate * c
              + water.chlorineChargeMmolL
              + hydroxideMmolL
              - hydrogenMmolL
              - water.alkalinityMmolL;
      // its derivative with respect to pH is ln 10 times the buffer terms
      double buffer =
          LN_10
              * (water.carbonMmolL * (a0 * a1 + 4 * a0 * a2 + a1 * a2)
                  + cyanurate * c * (1 - c)
                  + hydroxideMmolL
                  + hydrogenMmolL);
      double change = StrictMath.max(-0.5, StrictMath.min(0.5, excess / buffer));
      ph -= change;
      water.carbonDioxideMmolL = water.carbonMmolL * a0;
      // with Newton's method the next change would be of the order of this one's square
      if (StrictMath.abs(change) < 1e-5) {
        break;
      }
    }
    water.ph = ph;
  }

  /** Sets the carbon so that the water has the given pH at its alkalinity. */
  static void setPh(Water water, double ph) {
    double low = 0;
    double high = 2 * water.alkalinityMmolL + 1;
    for (int i = 0; i < 60; i++) {
      water.carbonMmolL = 0.5 * (low + high);
      water.ph = ph;
      equilibrate(water);
      // more carbon dioxide lowers the pH
      if (water.ph > ph) {
        low = water.carbonMmolL;
      } else {
        high = water.carbonMmolL;
      }
    }
  }

  /**
   * Carbon dioxide escapes towards equilibrium with the air. The alkalinity does not change, so the
   * pH rises.
   *
   * @param strippingFraction cell current as a fraction of the nominal current
   */
  void breathe(Water water, double dtS, double strippingFraction) {
    double balanceMmolL = 1000 * AIR_CO2_ATM * water.constants().henry();
    double perDay = settings.transferMDay / depthM + settings.strippingPerDay * strippingFraction;
    water.carbonMmolL -=
        (water.carbonDioxideMmolL - balanceMmolL) * (1 - StrictMath.exp(-perDay * dtS / 86_400));
  }
}
