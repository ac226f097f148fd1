package limnostat.water;

import java.util.function.DoubleUnaryOperator;

/**
 * Water whose pH is buffered by carbonate, stabiliser and chlorine together.
 *
 * <p>Charge balance, eq/L: Alk = CT (a1 + 2 a2) + charge of the chlorine species + Kw/H − H. An
 * acid or base changes Alk but not CT (a closed bottle). Carbon dioxide lost to air changes CT but
 * not Alk. Alkalinity is counted relative to CO2, H3Cy and HOCl, so it equals the total alkalinity
 * of a titration.
 *
 * @param alkalinityEqL above 0 in pool water
 * @param carbonMolL CT, all inorganic carbon
 * @param freeChlorineMgL 0–100 mg/L
 * @param cyanuricAcidMgL 0–500 mg/L
 * @param temperatureC 0–40 °C
 * @param ionicStrengthMolL 0–0.5 mol/L
 */
public record BufferedWater(
    double alkalinityEqL,
    double carbonMolL,
    double freeChlorineMgL,
    double cyanuricAcidMgL,
    double temperatureC,
    double ionicStrengthMolL) {
  /** Carbon dioxide in air, atm. */
  private static final double AIR_CO2_ATM = 420e-6;

  private static final double PH_LOW = 5;
  private static final double PH_HIGH = 10;

  /** After this many halvings, 5 pH units are below rounding. */
  private static final int HALVINGS = 60;

  /**
   * Share of carbon that is carbon dioxide (a0), charge per mole of carbon (a1 + 2 a2), and the
   * water's own ions (Kw/H − H), at one pH.
   */
  private record Shares(double dioxide, double charge, double waterEqL) {
    static Shares at(double ph, double temperatureC, double ionicStrengthMolL) {
      double log = IonicStrength.logActivity(ionicStrengthMolL, temperatureC);
      double h = PowerOfTen.of(-ph);
      double k1 = PowerOfTen.of(-Carbonates.pk1(temperatureC) - log);
      double k2 = PowerOfTen.of(-Carbonates.pk2(temperatureC) - 3 * log);
      double sum = h * h + k1 * h + k1 * k2;
      double hydroxide = PowerOfTen.of(ph - Carbonates.pkWater(temperatureC) - log);
      return new Shares(
          h * h / sum, (k1 * h + 2 * k1 * k2) / sum, hydroxide - h / PowerOfTen.of(log));
    }
  }

  /**
   * Water as tested by a person: CT follows from alkalinity and pH.
   *
   * @param totalAlkalinityMgL mg/L as CaCO3, including the stabiliser's part
   * @param ph 5–10
   * @throws OutsideValidityException if stabiliser and chlorine alone account for more than the
   *     alkalinity, or a value is outside its range
   */
  public static BufferedWater of(
      double totalAlkalinityMgL,
      double ph,
      double freeChlorineMgL,
      double cyanuricAcidMgL,
      double temperatureC,
      double ionicStrengthMolL) {
    double alkalinity = totalAlkalinityMgL / Alkalinity.CACO3_MG_EQ;
    BufferedWater bare =
        new BufferedWater(
            alkalinity, 0, freeChlorineMgL, cyanuricAcidMgL, temperatureC, ionicStrengthMolL);
    double left = alkalinity - bare.alkalinityAtEqL(ph);
    CARBONATE_MG_L.check(left * Alkalinity.CACO3_MG_EQ);
    return bare.withCarbon(left / Shares.at(ph, temperatureC, ionicStrengthMolL).charge);
  }

  private static final Validity CARBONATE_MG_L =
      new Validity(
          "alkalinity left for carbonate",
          0,
          1000,
          "mg/L",
          "test total alkalinity and stabiliser again: stabiliser alone explains more");

  /** The pH, 5–10: the charge balance rises with pH, so halving always ends. */
  public double ph() {
    return root(ph -> alkalinityAtEqL(ph) - alkalinityEqL);
  }

  /** Acid to reach a pH in a closed bottle, eq/L; below 0: base. Closed-form solution. */
  public double acidToEqL(double ph) {
    return alkalinityEqL - alkalinityAtEqL(ph);
  }

  /**
   * Soda ash to reach a higher pH, mol/L; each mole brings two equivalents and one carbon: x =
   * (alk(pH) − alk)/(2 − (a1 + 2 a2)).
   */
  public double sodaAshToMolL(double ph) {
    double charge = Shares.at(ph, temperatureC, ionicStrengthMolL).charge;
    return -acidToEqL(ph) / (2 - charge);
  }

  /** The same water after adding acid, eq/L; below 0: base. */
  public BufferedWater plusAcidEqL(double acidEqL) {
    return new BufferedWater(
        alkalinityEqL - acidEqL,
        carbonMolL,
        freeChlorineMgL,
        cyanuricAcidMgL,
        temperatureC,
        ionicStrengthMolL);
  }

  /** The same water with other carbon: sodium bicarbonate, soda ash, or carbon dioxide lost. */
  public BufferedWater withCarbon(double molL) {
    return new BufferedWater(
        alkalinityEqL, molL, freeChlorineMgL, cyanuricAcidMgL, temperatureC, ionicStrengthMolL);
  }

  /**
   * The water just after a chlorine product was added, with its base or acid and its stabiliser.
   *
   * @param riseMgL rise of free chlorine
   */
  public BufferedWater withChlorine(ChlorineForm form, double riseMgL) {
    return new BufferedWater(
        alkalinityEqL + riseMgL * form.alkalinityAddedEqPerMg(),
        carbonMolL,
        freeChlorineMgL + riseMgL,
        cyanuricAcidMgL + riseMgL * form.cyanuricAcidPerMg(),
        temperatureC,
        ionicStrengthMolL);
  }

  /**
   * The water after chlorine has become chloride: HOCl → H⁺ + Cl⁻, one equivalent of acid per mole.
   */
  public BufferedWater chlorineSpent(double mgL) {
    return new BufferedWater(
        alkalinityEqL - mgL / Cyanurate.CL2_MG_MOL,
        carbonMolL,
        Math.max(0, freeChlorineMgL - mgL),
        cyanuricAcidMgL,
        temperatureC,
        ionicStrengthMolL);
  }

  /** Partial pressure of carbon dioxide in equilibrium with the water, atm. Air has 420·10⁻⁶. */
  public double carbonDioxideAtm() {
    double dioxide = carbonMolL * Shares.at(ph(), temperatureC, ionicStrengthMolL).dioxide;
    return dioxide * PowerOfTen.of(Carbonates.pkHenry(temperatureC));
  }

  /** The pH that the water drifts to as it exchanges carbon dioxide with the air, 5–10. */
  public double phInBalanceWithAir() {
    double dioxide = AIR_CO2_ATM * PowerOfTen.of(-Carbonates.pkHenry(temperatureC));
    return root(
        ph -> {
          Shares shares = Shares.at(ph, temperatureC, ionicStrengthMolL);
          return withCarbon(dioxide / shares.dioxide).alkalinityAtEqL(ph) - alkalinityEqL;
        });
  }

  /** Alkalinity that this carbon, chlorine and stabiliser give at a pH, eq/L. */
  private double alkalinityAtEqL(double ph) {
    Shares shares = Shares.at(ph, temperatureC, ionicStrengthMolL);
    ChlorineSpecies species =
        Cyanurate.species(freeChlorineMgL, cyanuricAcidMgL, ph, temperatureC, ionicStrengthMolL);
    return carbonMolL * shares.charge + species.chargeEqL() + shares.waterEqL;
  }

  private static final Validity PH_REACHED =
      new Validity("resulting pH", PH_LOW, PH_HIGH, "", "add less at a time");

  private static double root(DoubleUnaryOperator rising) {
    if (rising.applyAsDouble(PH_LOW) > 0) {
      PH_REACHED.check(Double.NEGATIVE_INFINITY);
    }
    if (rising.applyAsDouble(PH_HIGH) < 0) {
      PH_REACHED.check(Double.POSITIVE_INFINITY);
    }
    double low = PH_LOW;
    double high = PH_HIGH;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = 0.5 * (low + high);
      if (rising.applyAsDouble(middle) > 0) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return 0.5 * (low + high);
  }
}
