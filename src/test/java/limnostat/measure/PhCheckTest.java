package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class PhCheckTest {
  private PhCheck check = PhCheck.START;

  private void electrode(double ph, double forS) {
    check =
        check.step(PhCalibration.IDEAL, new Measurement.Value(ph, Status.GOOD, 0, List.of()), forS);
  }

  private void noWater(double forS) {
    check =
        check.step(
            PhCalibration.IDEAL,
            new Measurement.None(
                Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.of(9)),
            forS);
  }

  private void test(double ph) {
    check = check.tested(ph);
  }

  @Test
  void twoTestsThatDifferToTheSameSideAreADisagreement() {
    electrode(7.2, 10);
    test(7.6);
    assertFalse(check.disagrees(), "one may be the test's mistake");
    electrode(7.25, 300);
    test(7.7);
    assertTrue(check.disagrees());
    assertEquals(7.7, check.tested());
    assertEquals(7.25, check.beside());
    electrode(7.25, 86_400);
    assertTrue(check.disagrees(), "until a test says otherwise");
    test(7.3);
    assertFalse(check.disagrees());
  }

  @Test
  void oneBelowIsEnoughAsAcidWouldGoOn() {
    electrode(7.8, 10);
    test(7.5);
    assertFalse(check.disagrees(), "three tenths are within");
    test(7.4);
    assertTrue(check.disagrees());
    electrode(7.8, 86_400);
    assertTrue(check.disagrees(), "until a test says otherwise");
    test(7.7);
    assertFalse(check.disagrees());
  }

  @Test
  void threeTenthsAreWithin() {
    electrode(7.0, 10);
    for (int i = 0; i < 5; i++) {
      electrode(7.0, 3600);
      test(7.3);
    }
    assertEquals(0, check.off(), "the edge is not passed");
    test(7.31);
    assertEquals(1, check.off());
  }

  /** One each side is scatter, not an electrode that has drifted. */
  @Test
  void differencesToBothSidesAreNone() {
    electrode(7.4, 10);
    for (int i = 0; i < 10; i++) {
      test(i % 2 == 0 ? 7.8 : 7.0);
      electrode(7.4, 86_400);
      assertEquals(i % 2 == 1, check.disagrees(), "the one below, test " + i);
      assertEquals(1, check.off());
    }
  }

  /** A message may come twice, and a person may enter the same test twice. */
  @Test
  void theSameTestTwiceIsOne() {
    electrode(7.2, 10);
    test(7.8);
    test(7.8);
    electrode(7.2, 299);
    test(7.8);
    assertFalse(check.disagrees());
    electrode(7.2, 300);
    test(7.8);
    assertTrue(check.disagrees());
  }

  @Test
  void onceTheyDisagreeATestTooSoonChangesNothing() {
    electrode(7.2, 10);
    test(7.8);
    electrode(7.2, 300);
    test(7.8);
    test(7.8);
    assertTrue(check.disagrees());
  }

  @Test
  void withoutAnElectrodeThereIsNothingToHoldItAgainst() {
    test(7.8);
    electrode(7.2, 400);
    test(7.8);
    electrode(7.2, 400);
    assertFalse(check.disagrees(), "the first was before any sample");
    noWater(6 * 3600 + 1);
    test(7.8);
    assertFalse(check.disagrees(), "the pump has rested too long");
  }

  @Test
  void waterThatStoodForHoursHasItsPhStill() {
    electrode(7.2, 10);
    test(7.8);
    noWater(6 * 3600);
    test(7.8);
    assertTrue(check.disagrees());
    assertEquals(7.2, check.beside(), "not the standing water's 9");
  }

  @Test
  void anInterruptionIsTimeToo() {
    electrode(7.2, 10);
    check = check.aged(6 * 3600 + 1);
    test(7.8);
    assertEquals(0, check.off(), "what the electrode said is too old");
    electrode(7.2, 10);
    test(7.8);
    check = check.aged(300);
    test(7.8);
    assertTrue(check.disagrees());
  }

  @Test
  void anotherCalibrationBeginsAnew() {
    electrode(7.2, 10);
    test(7.8);
    electrode(7.2, 400);
    test(7.8);
    assertTrue(check.disagrees());
    check =
        check.step(
            new PhCalibration(-3, 0.98), new Measurement.Value(7.8, Status.GOOD, 0, List.of()), 1);
    assertFalse(check.disagrees());
  }

  /** What the electrode said under the old one is no reading of the new one's. */
  @Test
  void anotherCalibrationForgetsTheOldReading() {
    electrode(7.2, 10);
    check =
        check.step(
            new PhCalibration(-3, 0.98),
            new Measurement.None(
                Status.FAILURE, List.of(Plausibility.PRESENT), OptionalDouble.empty()),
            1);
    test(7.8);
    assertEquals(0, check.off());
  }
}
