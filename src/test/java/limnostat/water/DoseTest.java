package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rows [computed] ±0.5 % from molar masses [memory] and exact US units. */
class DoseTest {
  private static final double POOL_M3 = UsUnits.M3_PER_10000_GAL;
  private static final double LB = UsUnits.G_PER_LB;

  private static void near(double expected, double actual) {
    assertEquals(expected, actual, 5e-3 * Math.abs(expected));
  }

  /** 1 mg/L in 10,000 gal: 37.854 g = 1.3353 oz = 0.083454 lb. */
  @ParameterizedTest
  @CsvSource("37.854, 1.3353, 0.083454, 13209")
  void tenThousandGallons(double g, double oz, double lb, double gal50m3) {
    assertEquals(g, POOL_M3, 5e-4);
    assertEquals(oz, POOL_M3 / UsUnits.G_PER_OZ, 5e-5);
    assertEquals(lb, POOL_M3 / LB, 5e-7);
    near(gal50m3, UsUnits.gallons(50));
  }

  /** Trade %, mL a mg/L and m³, fl oz in 10,000 gal; 1 gal in 10,000 gal is as many mg/L. */
  @ParameterizedTest
  @CsvSource({"12.5, 8.0, 10.24", "10, 10.0, 12.8", "8.25, 12.12, 15.5", "6, 16.67, 21.3"})
  void liquidChlorine(double tradePercent, double ml, double flOz) {
    near(ml, Dose.liquidChlorineMl(1, tradePercent));
    near(flOz, Dose.liquidChlorineMl(POOL_M3, tradePercent) / UsUnits.ML_PER_FL_OZ);
    near(128 * UsUnits.ML_PER_FL_OZ, Dose.liquidChlorineMl(tradePercent * POOL_M3, tradePercent));
  }

  /**
   * Available %, g a mg/L and m³, oz in 10,000 gal, mg/L of 1 lb there; lithium's 35 % [memory].
   */
  @ParameterizedTest
  @CsvSource({
    "65, 1.538, 2.05, 7.79",
    "68, 1.471, 1.96, 8.15",
    "73, 1.370, 1.83, 8.75",
    "56, 1.786, 2.38, 6.71",
    "62, 1.613, 2.15, 7.43",
    "90, 1.111, 1.48, 10.78",
    "35, 2.857, 3.815, 4.194"
  })
  void solidChlorine(double percent, double g, double oz, double perLb) {
    near(g, Dose.solidChlorineG(1, percent));
    near(oz, Dose.solidChlorineG(POOL_M3, percent) / UsUnits.G_PER_OZ);
    near(LB, Dose.solidChlorineG(perLb * POOL_M3, percent));
  }

  /** 20 g/h for 8 h in 50 m³ is 3.2 mg/L. */
  @ParameterizedTest
  @CsvSource("3.2, 50, 20, 8")
  void saltCell(double mgL, double m3, double gH, double hours) {
    near(hours, Dose.cellHours(mgL * m3, gH));
  }

  /** Per mg/L of free chlorine: stabiliser, calcium, salt once spent, alkalinity once spent. */
  @ParameterizedTest
  @CsvSource({
    "LIQUID, 0, 0, 1.648, 0",
    "CALCIUM_HYPOCHLORITE, 0, 0.706, 0.824, 0",
    "DICHLOR, 0.910, 0, 0.824, -0.353",
    "TRICHLOR, 0.607, 0, 0.824, -0.706",
    "LITHIUM_HYPOCHLORITE, 0, 0, 0.824, 0",
    "SALT_CELL, 0, 0, 0, 0"
  })
  void sideEffects(ChlorineForm form, double cya, double ch, double salt, double ta) {
    near(cya, form.cyanuricAcidPerMg());
    near(ch, form.calciumHardnessPerMg());
    near(salt, form.saltPerMg());
    assertEquals(ta, form.alkalinityPerMg(), 5e-4);
    // the same acid by its two measures: 19.97 mL a m³ is 10 mg/L of alkalinity
    assertEquals(-ta * 1.997, form.acidBroughtMlPerG(), 2e-3);
  }

  /** Muriatic acid 31.45 %, 1.16 kg/L, 10.01 mol/L. */
  @ParameterizedTest
  @CsvSource({"10, 1, 19.97", "50.1, 37.85411784, 3785.41", "0.391, 37.85411784, 29.574"})
  void muriaticAcid(double fallMgL, double m3, double ml) {
    near(ml, Dose.muriaticAcidMl(fallMgL / Alkalinity.CACO3_MG_EQ * 1000 * m3, 31.45));
  }

  @ParameterizedTest
  @CsvSource({"10, 1, 25.74", "4.66, 37.85411784, 453.59"})
  void dryAcid(double fallMgL, double m3, double g) {
    near(g, Dose.dryAcidG(fallMgL / Alkalinity.CACO3_MG_EQ * 1000 * m3));
  }

  /** Rise of 1 lb in 10,000 gal. */
  @ParameterizedTest
  @CsvSource("7.14, 11.3, 11.98, 8.32, 8.16, 10.81, 2.50")
  void onePound(
      double bicarbonate,
      double sodaAsh,
      double cya,
      double flakes,
      double dihydrate,
      double dry,
      double oxidiser) {
    near(LB, POOL_M3 * Dose.bicarbonateGM3(bicarbonate));
    near(LB, POOL_M3 * Dose.sodaAshGM3(sodaAsh));
    near(LB, POOL_M3 * Dose.stabiliserGM3(cya));
    near(LB, POOL_M3 * Dose.calciumChlorideGM3(flakes, 77));
    near(LB, POOL_M3 * Dose.calciumChlorideGM3(dihydrate, 75.49)); // 110.984/147.014
    near(LB, POOL_M3 * Dose.calciumChlorideGM3(dry, 100));
    near(LB, POOL_M3 * Dose.monopersulfateGM3(oxidiser));
  }

  @ParameterizedTest
  @CsvSource("16.79, 10.59")
  void tenOfAlkalinity(double bicarbonateG, double sodaAshG) {
    near(bicarbonateG, Dose.bicarbonateGM3(10));
    near(sodaAshG, Dose.sodaAshGM3(10));
  }

  /** 400 to 3200 mg/L in 50 m³ is 140 kg; 50 lb in 10,000 gal is 599 mg/L. */
  @ParameterizedTest
  @CsvSource({"2800, 50, 140000", "599, 37.85411784, 22679.6"})
  void salt(double riseMgL, double m3, double g) {
    near(g, m3 * Dose.saltGM3(riseMgL));
  }

  /** 100 to 40 with clean water: 0.60 in one step, 0.916 volumes by overflow. */
  @ParameterizedTest
  @CsvSource({"100, 40, 0, 0.60, 0.916", "100, 50, 20, 0.625, 0.981"})
  void dilution(double now, double target, double fill, double share, double volumes) {
    near(share, Dose.replacedShare(now, target, fill));
    near(volumes, Dose.overflowedVolumes(now, target, fill));
  }

  @ParameterizedTest
  @CsvSource({"100, 40, 40", "100, 120, 0", "100, 40, -1"})
  void refusesWhatDilutesNothing(double now, double target, double fill) {
    assertThrows(IllegalArgumentException.class, () -> Dose.replacedShare(now, target, fill));
  }

  /**
   * 24 ft round, 4 ft deep: 13,536 gal, 51.24 m³. A bag (1 lb) for each 10,000 gal makes "a bag and
   * a half" of it [practice].
   */
  @ParameterizedTest
  @CsvSource("24, 4, 51.24, 13536, 1.5")
  void roundPool(double diameterFt, double depthFt, double m3, double gal, double bags) {
    double volume = Dose.roundPoolM3(diameterFt * 0.3048, depthFt * 0.3048);
    near(m3, volume);
    near(gal, UsUnits.gallons(volume));
    assertEquals(bags, volume / POOL_M3, 0.2);
  }
}
