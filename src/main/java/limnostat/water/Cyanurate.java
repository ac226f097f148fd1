package limnostat.water;

/**
 * How stabiliser (cyanuric acid) binds chlorine: the full chlorinated-cyanurate equilibrium.
 *
 * <p>Constants: O'Brien, Morris and Butler (1974), in Rubin (ed.), Chemistry of Water Supply,
 * Treatment and Distribution, ch. 14 (from memory; their three thermodynamic cycles close to 0.01).
 * They are valid at 25 °C only; here only the acid constant of HOCl depends on temperature. Another
 * published set differs from this one by about a third in HOCl, so take the result as ±35 %.
 *
 * <p>Salt shifts the acid constants by Davies: pK′ = pK + (z² − (z−1)²) log10 γ for the acid that
 * forms an ion of charge z. The hydrolyses do not change the charge, so their constants do not
 * shift.
 */
public final class Cyanurate {
  /** The set of constants, to be named beside every result that uses it. */
  public static final String CONSTANTS =
      "O'Brien, Morris and Butler (1974), 25 degC; HOCl after Morris (1966)";

  /** Relative error of the result with stabiliser: two published sets differ by this much. */
  public static final double UNCERTAINTY_FRACTION = 0.35;

  /** mg of Cl2 per mole. */
  static final double CL2_MG_MOL = 70906;

  /** mg of cyanuric acid per mole. */
  static final double CYA_MG_MOL = 129075;

  static final Validity FREE_CHLORINE_MG_L =
      new Validity("free chlorine", 0, 100, "mg/L", "test again, with the sample diluted");

  static final Validity CYANURIC_ACID_MG_L =
      new Validity("cyanuric acid", 0, 500, "mg/L", "test again, with the sample diluted");

  // Numbers of the reactions as in the source (Cy = C3N3O3).
  private static final double K1 = PowerOfTen.of(-1.80); // Cl3Cy + H2O = HCl2Cy + HOCl
  private static final double K2 = PowerOfTen.of(-3.75); // HCl2Cy = H+ + Cl2Cy-
  private static final double K3 = PowerOfTen.of(-2.93); // HCl2Cy + H2O = H2ClCy + HOCl
  private static final double K4 = PowerOfTen.of(-5.33); // H2ClCy = H+ + HClCy-
  private static final double K5 = PowerOfTen.of(-10.12); // HClCy- = H+ + ClCy2-
  private static final double K6 = PowerOfTen.of(-6.88); // H3Cy = H+ + H2Cy-
  private static final double K8 = PowerOfTen.of(-4.07); // H2ClCy + H2O = H3Cy + HOCl
  private static final double K11 = PowerOfTen.of(-11.40); // H2Cy- = H+ + HCy2-
  private static final double K12 = PowerOfTen.of(-13.5); // HCy2- = H+ + Cy3-

  private Cyanurate() {}

  /**
   * Every cyanurate relative to [H3Cy] = 1; those with one, two and three chlorines are h, h² and
   * h³ times these, h = [HOCl].
   *
   * @param fraction of unbound chlorine that is HOCl
   */
  private record Ratios(
      double fraction,
      double h2Cy,
      double hCy,
      double cy,
      double h2ClCy,
      double hClCy,
      double clCy,
      double hCl2Cy,
      double cl2Cy,
      double cl3Cy) {

    static Ratios of(double ph, double fraction, double logActivity) {
      double hydrogen = PowerOfTen.of(-ph);
      double one = logActivity == 0 ? 1 : PowerOfTen.of(-logActivity); // forms an ion of charge 1
      double two = one * one * one;
      double three = two * one * one;
      double h2Cy = K6 * one / hydrogen;
      double hCy = h2Cy * K11 * two / hydrogen;
      double h2ClCy = 1 / K8;
      double hClCy = h2ClCy * K4 * one / hydrogen;
      double hCl2Cy = h2ClCy / K3;
      return new Ratios(
          fraction,
          h2Cy,
          hCy,
          hCy * K12 * three / hydrogen,
          h2ClCy,
          hClCy,
          hClCy * K5 * two / hydrogen,
          hCl2Cy,
          hCl2Cy * K2 * one / hydrogen,
          hCl2Cy / K1);
    }

    double none() {
      return 1 + h2Cy + hCy + cy;
    }

    double mono() {
      return h2ClCy + hClCy + clCy;
    }

    double di() {
      return hCl2Cy + cl2Cy;
    }

    double sum(double h) {
      return none() + h * (mono() + h * (di() + h * cl3Cy));
    }

    /** Chlorine bound. */
    double held(double h) {
      return h * (mono() + h * (2 * di() + h * 3 * cl3Cy));
    }
  }

  /**
   * HOCl in equilibrium, mg/L as Cl2, at ionic strength 0.
   *
   * @param freeChlorineMgL free chlorine as a DPD test reads it, including what stabiliser binds;
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
    return CL2_MG_MOL
        * hypochlorousAcidMolL(
            Ratios.of(ph, fraction, 0), freeChlorineMgL / CL2_MG_MOL, cyanuricAcidMgL / CYA_MG_MOL);
  }

  /**
   * The whole equilibrium. The balances of chlorine and cyanurate close to 10⁻¹⁰.
   *
   * @param freeChlorineMgL as above, 0–100 mg/L
   * @param cyanuricAcidMgL 0–500 mg/L
   * @param ph 5–10
   * @param temperatureC 0–40 °C
   * @param ionicStrengthMolL 0–0.5 mol/L
   * @throws OutsideValidityException outside these
   */
  public static ChlorineSpecies species(
      double freeChlorineMgL,
      double cyanuricAcidMgL,
      double ph,
      double temperatureC,
      double ionicStrengthMolL) {
    double chlorine = FREE_CHLORINE_MG_L.check(freeChlorineMgL) / CL2_MG_MOL;
    double cyanurate = CYANURIC_ACID_MG_L.check(cyanuricAcidMgL) / CYA_MG_MOL;
    Ratios ratios = ratios(ph, temperatureC, ionicStrengthMolL);
    double h;
    if (chlorine == 0) {
      h = 0;
    } else if (cyanurate == 0) {
      h = chlorine * ratios.fraction();
    } else {
      h = hypochlorousAcidMolL(ratios, chlorine, cyanurate);
    }
    double h3Cy = cyanurate / ratios.sum(h);
    double one = h3Cy * h;
    double two = one * h;
    return new ChlorineSpecies(
        h,
        h / ratios.fraction() - h,
        two * h * ratios.cl3Cy(),
        two * ratios.hCl2Cy(),
        two * ratios.cl2Cy(),
        one * ratios.h2ClCy(),
        one * ratios.hClCy(),
        one * ratios.clCy(),
        h3Cy,
        h3Cy * ratios.h2Cy(),
        h3Cy * ratios.hCy(),
        h3Cy * ratios.cy());
  }

  /**
   * The inverse: free chlorine, mg/L, that gives this much HOCl. Closed-form solution.
   *
   * @param hypochlorousAcidMgL 0–100 mg/L as Cl2
   */
  public static double freeChlorineMgL(
      double hypochlorousAcidMgL,
      double cyanuricAcidMgL,
      double ph,
      double temperatureC,
      double ionicStrengthMolL) {
    double h = FREE_CHLORINE_MG_L.check(hypochlorousAcidMgL) / CL2_MG_MOL;
    double cyanurate = CYANURIC_ACID_MG_L.check(cyanuricAcidMgL) / CYA_MG_MOL;
    Ratios ratios = ratios(ph, temperatureC, ionicStrengthMolL);
    return CL2_MG_MOL * (h / ratios.fraction() + cyanurate * ratios.held(h) / ratios.sum(h));
  }

  /** A chlorine species with one Cl, mol/L, as mg/L of Cl2. */
  public static double mgL(double molL) {
    return molL * CL2_MG_MOL;
  }

  private static Ratios ratios(double ph, double temperatureC, double ionicStrengthMolL) {
    Validity.PH.check(ph);
    Validity.WATER_C.check(temperatureC);
    Validity.IONIC_STRENGTH.check(ionicStrengthMolL);
    return Ratios.of(
        ph,
        HypochlorousAcid.fraction(ph, temperatureC, ionicStrengthMolL),
        IonicStrength.logActivity(ionicStrengthMolL, temperatureC));
  }

  /** [HOCl], mol/L, with both chlorine and cyanurate present. */
  private static double hypochlorousAcidMolL(Ratios ratios, double chlorine, double cyanurate) {
    double fraction = ratios.fraction();
    double none = ratios.none();
    double mono = ratios.mono();
    double di = ratios.di();
    double tri = ratios.cl3Cy();

    // The chlorine balance, h (1 + Ka/H) + [mono] + 2 [di] + 3 [tri] = FT, rises with h, so there
    // is one root, bracketed by 0 and all chlorine free. Newton steps that leave the bracket are
    // replaced by halving it, so the search ends whatever the input.
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
    return h;
  }
}
