package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SlowAccountTest {
  private static final double VOLUME_M3 = 50;
  private static final double DAY_S = 86_400;
  private static final OptionalDouble NONE = OptionalDouble.empty();

  private static EstimateSettings pool(SlowSettings slow) {
    return new EstimateSettings(VOLUME_M3, 46, 8, slow, 2, 3);
  }

  private static SlowSettings configured(
      double cyanuricAcidMgL, ChlorineForm form, double makeUpM3Week) {
    return SlowSettings.configured(cyanuricAcidMgL, 1000, form, makeUpM3Week);
  }

  private static SlowSettings notConfigured(ChlorineForm form) {
    return new SlowSettings(NONE, NONE, form, 0);
  }

  /** Day by day in steps of a minute. */
  private static SlowAccount days(
      SlowSettings slow, SlowAccount account, double chlorineGDay, double acidMlDay, int days) {
    SlowAccount at = account;
    for (int minute = 0; minute < 1440 * days; minute++) {
      at = at.step(pool(slow), chlorineGDay / 1440, acidMlDay / 1440, 60);
    }
    return at;
  }

  private static WaterTest stabiliser(double mgL) {
    return WaterTest.EMPTY.with(Tested.CYANURIC_ACID, mgL);
  }

  /**
   * What comes with 10 mg/L of chlorine, 500 g in 50 m³: the side effects of water-chemistry
   * section 9 [computed], tolerance ±0.5 %; alkalinity (base − 1) 50.04/70.906.
   */
  @ParameterizedTest
  @CsvSource({
    "LIQUID, 0, 16.48, 0, 0",
    "CALCIUM_HYPOCHLORITE, 0, 8.24, 7.06, 0",
    "DICHLOR, 9.10, 8.24, 0, -3.53",
    "TRICHLOR, 6.07, 8.24, 0, -7.06",
    "SALT_CELL, 0, 0, 0, 0"
  })
  void chlorineBringsWhatItsFormHolds(
      ChlorineForm form, double stabiliser, double salt, double hardness, double alkalinity) {
    SlowSettings slow = configured(50, form, 0);
    SlowAccount before = SlowAccount.start(slow);
    SlowAccount after = before.step(pool(slow), 500, 0, 3600);
    double lostMgL = 0.1 / 24;
    assertEquals(50 + stabiliser - lostMgL, after.cyanuricAcidMgL(), 5e-3 * stabiliser + 1e-9);
    assertEquals(1000 + salt, after.salt().mgL(), 5e-3 * salt);
    assertEquals(hardness, after.calciumHardness().mgL() - 250, 5e-3 * hardness + 1e-9);
    assertEquals(alkalinity, after.totalAlkalinity().mgL() - 100, -5e-3 * alkalinity + 1e-9);
  }

  /** Mixed overflow, C = C0 exp(−V/V0): 100 to 40 mg/L at V/V0 = 0.916, section 9 [computed]. */
  @Test
  void replacedWaterThinsWhatFillWaterDoesNotHold() {
    SlowSettings slow = configured(100, ChlorineForm.SALT_CELL, 0.916 * VOLUME_M3);
    SlowAccount after = days(slow, SlowAccount.start(slow), 0, 0, 7);
    assertEquals(400, after.salt().mgL(), 0.5);
    // 0.1 mg/L a day of stabiliser goes by itself, thinned like the rest.
    double itself = 0.1 * 7 * (1 - 0.4) / 0.916;
    assertEquals(40 - itself, after.cyanuricAcidMgL(), 0.05);
    assertEquals(250, after.calciumHardness().mgL());
    assertTrue(after.calciumHardness().driftSdMgL() > 100, "fill water may hold any");
  }

  /** 19.97 mL/m³ of 31.45 % acid takes 10 mg/L of alkalinity: section 9 [computed]. */
  @Test
  void acidTakesAlkalinity() {
    SlowSettings slow = configured(0, ChlorineForm.SALT_CELL, 0);
    SlowAccount after = SlowAccount.start(slow).step(pool(slow), 0, 19.97 * VOLUME_M3, 3600);
    assertEquals(90, after.totalAlkalinity().mgL(), 0.05);
    // and leaves 0.2 mmol/L of salt
    assertEquals(11.68, after.salt().mgL() - 1000, 0.06);
  }

  /** 0.706 mg/L of alkalinity, so 1.41 mL of acid, come with a gram of trichlor's chlorine. */
  @Test
  void acidDemandIsWhatIsFedAndWhatComesWithTheChlorine() {
    SlowSettings slow = configured(30, ChlorineForm.TRICHLOR, 0);
    SlowAccount after = days(slow, SlowAccount.start(slow), 100, 60, 60);
    assertEquals(60 + 141, after.acidMlDay(), 1);
    SlowSettings cell = configured(30, ChlorineForm.SALT_CELL, 0);
    assertEquals(60, days(cell, SlowAccount.start(cell), 100, 60, 60).acidMlDay(), 0.5);
  }

  @Test
  void theStepsDoNotMatter() {
    SlowSettings slow = configured(40, ChlorineForm.TRICHLOR, 2);
    SlowAccount once = SlowAccount.start(slow).step(pool(slow), 1000, 500, 10 * DAY_S);
    SlowAccount often = days(slow, SlowAccount.start(slow), 100, 50, 10);
    assertEquals(often.cyanuricAcidMgL(), once.cyanuricAcidMgL(), 0.05);
    assertEquals(often.stabiliser().sdMgL(), once.stabiliser().sdMgL(), 0.2);
    assertEquals(often.salt().mgL(), once.salt().mgL(), 0.1);
  }

  @Test
  void nothingGoesBelowNothing() {
    SlowSettings slow = configured(0.5, ChlorineForm.SALT_CELL, 50);
    SlowAccount after = days(slow, SlowAccount.start(slow), 0, 50_000, 20);
    assertEquals(0, after.cyanuricAcidMgL());
    assertEquals(0, after.totalAlkalinity().mgL());
    assertThrows(IllegalArgumentException.class, () -> new Dissolved(-1, 0, 0));
    assertThrows(IllegalArgumentException.class, () -> new Dissolved(1, Double.NaN, 0));
  }

  /**
   * A rate that is not known is not known every day alike: the error doubles in double the time.
   */
  @Test
  void itGrowsUnsureWithTimeAndIsAskedForAgain() {
    SlowSettings slow = configured(30, ChlorineForm.SALT_CELL, 1);
    SlowAccount configured = SlowAccount.start(slow);
    assertFalse(configured.stabiliserUnsure());
    SlowAccount fortnight = days(slow, configured, 80, 0, 14);
    SlowAccount month = days(slow, fortnight, 80, 0, 14);
    assertEquals(2 * fortnight.stabiliser().driftSdMgL(), month.stabiliser().driftSdMgL(), 0.2);
    assertFalse(month.stabiliserUnsure(), "after a month");
    assertTrue(days(slow, month, 80, 0, 62).stabiliserUnsure(), "after three");
    assertFalse(days(slow, month, 80, 0, 62).tested(stabiliser(28)).stabiliserUnsure());
  }

  /** What tablets bring is known no better than the output: they are asked about sooner. */
  @Test
  void tabletsAreAskedAboutSooner() {
    SlowSettings slow = configured(30, ChlorineForm.TRICHLOR, 1);
    SlowAccount after = days(slow, SlowAccount.start(slow), 100, 0, 50);
    // 100 g a day are 2 mg/L, so 1.214 mg/L of stabiliser, less 0.1 and 2 % a week of what is
    // there:
    // 30 e^(−kt) + (1.114/k)(1 − e^(−kt)), k = 0.02/7, t = 50.
    assertEquals(77.9, after.cyanuricAcidMgL(), 0.2);
    assertTrue(after.stabiliserUnsure());
  }

  @Test
  void stabiliserNeverToldIsAskedForAndItsFirstTestIsBelieved() {
    for (ChlorineForm form : ChlorineForm.values()) {
      SlowAccount account = SlowAccount.start(notConfigured(form));
      assertTrue(account.stabiliserUnsure());
      for (double read : new double[] {0, 20, 60, 120}) {
        SlowAccount after = account.tested(stabiliser(read));
        assertEquals(read, after.cyanuricAcidMgL(), 0.1 * Math.abs(read - 30) + 1e-9);
        assertFalse(after.stabiliserUnsure());
      }
    }
    assertEquals(3200, SlowAccount.start(notConfigured(ChlorineForm.SALT_CELL)).salt().mgL());
    assertEquals(1000, SlowAccount.start(notConfigured(ChlorineForm.LIQUID)).salt().mgL());
  }

  /** Two tests that agree within their error: between them. One that cannot agree: itself. */
  @Test
  void anUnexpectedTestIsBelievedTheMore() {
    SlowAccount configured = SlowAccount.start(configured(30, ChlorineForm.SALT_CELL, 1));
    assertEquals(34, configured.tested(stabiliser(38)).cyanuricAcidMgL(), 0.1);
    assertEquals(98, configured.tested(stabiliser(100)).cyanuricAcidMgL(), 3);
  }

  /** A kit that reads 15 % too much does so each time. */
  @Test
  void manyTestsAreNotMuchBetterThanOne() {
    SlowAccount account = SlowAccount.start(configured(60, ChlorineForm.SALT_CELL, 1));
    for (int i = 0; i < 50; i++) {
      account = account.tested(stabiliser(60));
    }
    assertEquals(5, account.stabiliser().sdMgL(), 1e-9);
  }

  @Test
  void aTestTellsOfWhatItTested() {
    SlowAccount configured = SlowAccount.start(configured(30, ChlorineForm.SALT_CELL, 1));
    SlowAccount after =
        configured.tested(
            WaterTest.EMPTY
                .with(Tested.TOTAL_ALKALINITY, 60)
                .with(Tested.CALCIUM_HARDNESS, 400)
                .with(Tested.SALT, 3000));
    assertEquals(configured.stabiliser(), after.stabiliser());
    assertEquals(60, after.totalAlkalinity().mgL(), 4);
    assertEquals(400, after.calciumHardness().mgL(), 15);
    assertEquals(3000, after.salt().mgL(), 100);
  }

  /**
   * An installer who fills in the stabiliser and restarts is heard; one who changes nothing not.
   */
  @Test
  void anotherFigureInTheFileCountsAsATest() {
    SlowAccount notConfigured = SlowAccount.start(notConfigured(ChlorineForm.SALT_CELL));
    SlowAccount filled = notConfigured.resumed(configured(60, ChlorineForm.SALT_CELL, 1));
    assertEquals(60, filled.cyanuricAcidMgL(), 3);
    assertEquals(1000, filled.salt().mgL(), 100);
    SlowAccount tested = filled.tested(stabiliser(90));
    assertEquals(tested, tested.resumed(configured(60, ChlorineForm.SALT_CELL, 1)));
    SlowAccount removed = tested.resumed(notConfigured(ChlorineForm.SALT_CELL));
    assertEquals(tested.stabiliser(), removed.stabiliser());
    assertEquals(
        60, removed.resumed(configured(60, ChlorineForm.SALT_CELL, 1)).cyanuricAcidMgL(), 9);
  }

  /** A ratio of at most 20: Falk et al., Water 2019, 11, 1314 (from memory). */
  @Test
  void leastFreeChlorineGoesWithStabiliser() {
    assertEquals(2, SlowSettings.leastFreeChlorineMgL(40), 1e-9);
    assertEquals(4.5, SlowSettings.leastFreeChlorineMgL(90), 1e-9);
  }
}
