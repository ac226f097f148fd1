package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class BufferedWaterTest {
  private static BufferedWater fresh(double ta, double cya, double ph) {
    return BufferedWater.of(ta, ph, 0, cya, 25, 0);
  }

  /**
   * Acid at constant carbon, 25 °C, ionic strength 0 [computed] ±2 %: TA, CYA, pH from and to, CT
   * mmol/L, acid meq/L, mL of 31.45 % acid a m³, fl oz in 10,000 gal, fall of TA.
   */
  @ParameterizedTest
  @CsvSource({
    "100, 0, 7.8, 7.5, 2.0625, 0.0693, 6.9, 8.9, 3.5",
    "100, 30, 7.8, 7.5, 1.8483, 0.0822, 8.2, 10.5, 4.1",
    "100, 50, 7.8, 7.4, 1.7055, 0.1331, 13.3, 17.0, 6.7",
    "80, 0, 8.0, 7.5, 1.6258, 0.0781, 7.8, 10.0, 3.9",
    "120, 0, 7.6, 7.4, 2.528, 0.0745, 7.4, 9.5, 3.7"
  })
  void acidToReach(
      double ta,
      double cya,
      double from,
      double to,
      double carbonMmolL,
      double acidMeqL,
      double mlM3,
      double flOz,
      double fall) {
    BufferedWater water = fresh(ta, cya, from);
    assertEquals(carbonMmolL, 1000 * water.carbonMolL(), 0.02 * carbonMmolL);
    double acid = water.acidToEqL(to);
    assertEquals(acidMeqL, 1000 * acid, 0.02 * acidMeqL);
    double ml = Dose.muriaticAcidMl(1000 * acid, Dose.MURIATIC_PERCENT);
    assertEquals(mlM3, ml, 0.02 * mlM3);
    assertEquals(flOz, ml * UsUnits.M3_PER_10000_GAL / UsUnits.ML_PER_FL_OZ, 0.02 * flOz);
    assertEquals(fall, acid * Alkalinity.CACO3_MG_EQ, 0.02 * fall);
  }

  /** From TA 100, pH 7.8 [computed] ±0.01. */
  @ParameterizedTest
  @CsvSource({"0.05, 7.568", "0.10, 7.407", "0.20, 7.182"})
  void phAfterAcid(double acidMeqL, double ph) {
    assertEquals(ph, fresh(100, 0, 7.8).plusAcidEqL(acidMeqL / 1000).ph(), 0.01);
  }

  /** Times 420 uatm, TA 100, 25 °C [computed]. */
  @ParameterizedTest
  @CsvSource({"7.2, 19.8", "7.5, 9.9", "7.8, 4.9", "8.2, 2.0"})
  void carbonDioxide(double ph, double times) {
    assertEquals(times, fresh(100, 0, ph).carbonDioxideAtm() / 420e-6, 0.06);
  }

  /** TA and the pH at which the water is in balance with air, 25 °C [computed]. */
  @ParameterizedTest
  @CsvSource({"60, 8.27", "80, 8.39", "100, 8.48", "120, 8.56"})
  void balanceWithAir(double ta, double ph) {
    assertEquals(ph, fresh(ta, 0, 7.5).phInBalanceWithAir(), 0.01);
  }

  private interface Case {
    void check(BufferedWater water, double ph, Random random);
  }

  private static void overGeneratedWater(Case test) {
    Random random = new Random(11);
    for (int i = 0; i < 500; i++) {
      double ph = 6.5 + 2.2 * random.nextDouble();
      double cya = 100 * random.nextDouble();
      double ta = 45 + 0.4 * cya + 150 * random.nextDouble();
      double fc = 10 * random.nextDouble();
      double t = 40 * random.nextDouble();
      double strength = 0.1 * random.nextDouble();
      test.check(BufferedWater.of(ta, ph, fc, cya, t, strength), ph, random);
    }
  }

  @Test
  void phIsWhatTheTestSaid() {
    overGeneratedWater((water, ph, random) -> assertEquals(ph, water.ph(), 1e-9, water.toString()));
  }

  @Test
  void acidAndBaseUndoEachOther() {
    overGeneratedWater(
        (water, ph, random) -> {
          double to = ph + 0.8 * random.nextDouble() - 0.4;
          BufferedWater there = water.plusAcidEqL(water.acidToEqL(to));
          assertEquals(to, there.ph(), 1e-9, water.toString());
          assertEquals(water.carbonMolL(), there.carbonMolL());
          BufferedWater back = there.plusAcidEqL(there.acidToEqL(ph));
          assertEquals(water.alkalinityEqL(), back.alkalinityEqL(), 1e-15, water.toString());
        });
  }

  @Test
  void lostCarbonDioxideRaisesPhAndLeavesAlkalinity() {
    overGeneratedWater(
        (water, ph, random) -> {
          BufferedWater after = water.withCarbon(0.99 * water.carbonMolL());
          assertEquals(water.alkalinityEqL(), after.alkalinityEqL());
          assertTrue(after.ph() > ph, water.toString());
          assertTrue(after.carbonDioxideAtm() < water.carbonDioxideAtm(), water.toString());
        });
  }

  /** Hypochlorite and the cell end where they began; the organic forms leave acid. */
  @ParameterizedTest
  @EnumSource(ChlorineForm.class)
  void chlorineOverItsWholeCycle(ChlorineForm form) {
    BufferedWater before = BufferedWater.of(100, 7.5, 0, 30, 25, 0.01);
    BufferedWater after = before.withChlorine(form, 5).chlorineSpent(5);
    assertEquals(
        5 * form.alkalinityPerMg(),
        (after.alkalinityEqL() - before.alkalinityEqL()) * Alkalinity.CACO3_MG_EQ,
        1e-9);
    if (form.stabilised()) {
      assertTrue(after.ph() < before.ph() - 0.02, "pH " + after.ph());
    } else {
      assertEquals(before.ph(), after.ph(), 1e-9);
      assertTrue(before.withChlorine(form, 5).ph() > before.ph());
    }
  }

  @Test
  void refusesStabiliserBeyondAlkalinity() {
    assertThrows(OutsideValidityException.class, () -> BufferedWater.of(30, 7.5, 0, 200, 25, 0));
  }
}
