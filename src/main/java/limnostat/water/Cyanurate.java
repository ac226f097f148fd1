package limnostat.water;

/**
 * How stabiliser (cyanuric acid) holds chlorine: the full chlorinated-cyanurate equilibrium.
 *
 * <p>Constants: O'Brien, Morris and Butler (1974), in Rubin (ed.), Chemistry of Water Supply,
 * Treatment and Distribution, ch. 14 (from memory; their three thermodynamic cycles close to 0.01).
 * They hold at 25 °C only; here the acid constant of HOCl alone follows temperature. Another
 * published set differs from this one by about a third in HOCl, so take the result as ±35 %.
 */
public final class Cyanurate {
  /** mg of Cl2 a mole. */
  private static final double CL2_MG_MOL = 70906;

  /** mg of cyanuric acid a mole. */
  private static final double CYA_MG_MOL = 129075;

  // Numbers of the reactions as in the source (Cy = C3N3O3).
  private static final double K1 = tenTo(-1.80); // Cl3Cy + H2O = HCl2Cy + HOCl
  private static final double K2 = tenTo(-3.75); // HCl2Cy = H+ + Cl2Cy-
  private static final double K3 = tenTo(-2.93); // HCl2Cy + H2O = H2ClCy + HOCl
  private static final double K4 = tenTo(-5.33); // H2ClCy = H+ + HClCy-
  private static final double K5 = tenTo(-10.12); // HClCy- = H+ + ClCy2-
  private static final double K6 = tenTo(-6.88); // H3Cy = H+ + H2Cy-
  private static final double K8 = tenTo(-4.07); // H2ClCy + H2O = H3Cy + HOCl
  private static final double K11 = tenTo(-11.40); // H2Cy- = H+ + HCy2-
  private static final double K12 = tenTo(-13.5); // HCy2- = H+ + Cy3-

  private Cyanurate() {}

  /**
   * HOCl in equilibrium, mg/L as Cl2.
   *
   * @param freeChlorineMgL free chlorine as a DPD test reads it, so with what stabiliser holds;
   *     0–100 mg/L
   * @param cyanuricAcidMgL stabiliser; 0–500 mg/L
   * @param ph 5–10
   * @param temperatureC 0–40 °C
   */
  public static double hypochlorousAcidMgL(
      double freeChlorineMgL, double cyanuricAcidMgL, double ph, double temperatureC) {
    if (freeChlorineMgL <= 0) {
      return 0;
    }
    double fraction = HypochlorousAcid.fraction(ph, temperatureC);
    if (cyanuricAcidMgL <= 0) {
      return fraction * freeChlorineMgL;
    }
    double chlorine = freeChlorineMgL / CL2_MG_MOL;
    double cyanurate = cyanuricAcidMgL / CYA_MG_MOL;
    double hydrogen = tenTo(-ph);

    // Every species relative to [H3Cy] = 1; the chlorinated ones are h, h² and h³ times these, h =
    // [HOCl].
    double h2Cy = K6 / hydrogen;
    double hCy = h2Cy * K11 / hydrogen;
    double none = 1 + h2Cy + hCy + hCy * K12 / hydrogen;
    double h2ClCy = 1 / K8;
    double hClCy = h2ClCy * K4 / hydrogen;
    double mono = h2ClCy + hClCy + hClCy * K5 / hydrogen;
    double hCl2Cy = h2ClCy / K3;
    double di = hCl2Cy * (1 + K2 / hydrogen);
    double tri = hCl2Cy / K1;

    // The chlorine balance, h (1 + Ka/H) + [mono] + 2 [di] + 3 [tri] = FT, rises with h: one root,
    // bracketed by 0 and
    // all chlorine free. Newton steps, halved back into the bracket, so that it ends whatever the
    // input.
    double low = 0;
    double high = chlorine * fraction;
    double h = high / (1 + cyanurate / chlorine);
    for (int i = 0; i < 100 && high - low > 1e-13 * high; i++) {
      double sum = none + h * (mono + h * (di + h * tri));
      double held = h * (mono + h * (2 * di + h * 3 * tri));
      double sumSlope = mono + h * (2 * di + h * 3 * tri);
      double heldSlope = mono + h * (4 * di + h * 9 * tri);
      double excess = h / fraction + cyanurate * held / sum - chlorine;
      if (excess > 0) {
        high = h;
      } else {
        low = h;
      }
      double slope = 1 / fraction + cyanurate * (heldSlope * sum - held * sumSlope) / (sum * sum);
      double next = h - excess / slope;
      double step = next > low && next < high ? next : (low + high) / 2;
      if (Math.abs(step - h) <= 1e-13 * h) {
        h = step;
        break;
      }
      h = step;
    }
    return h * CL2_MG_MOL;
  }

  private static double tenTo(double exponent) {
    return StrictMath.pow(10, exponent);
  }
}
