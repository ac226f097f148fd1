package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.estimate.TestVerdict.Reading;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

/** Expected 3 mg/L, give or take 0.5 of test and estimate together. */
class TestVerdictTest {
  private static final SlowAccount SLOW =
      SlowAccount.start(SlowSettings.configured(40, 3400, ChlorineForm.SALT_CELL, 1));

  private static final double SD_MG_L = 0.5;

  private TestLog tests = TestLog.START;

  private TestVerdict judged(double readMgL, double expectedMgL) {
    Reading reading = new Reading(readMgL, expectedMgL, (readMgL - expectedMgL) / SD_MG_L);
    TestVerdict verdict = TestVerdict.of(tests, reading);
    tests = tests.with(verdict, reading);
    return verdict;
  }

  private TestVerdict judged(double readMgL) {
    return judged(readMgL, 3);
  }

  private void pass(double days) {
    tests = tests.aged(0.1, SLOW, 86_400 * days);
  }

  @Test
  void theFirstTestIsBelievedWhateverItReads() {
    assertEquals(TestVerdict.BELIEVED, judged(9));
  }

  @Test
  void aTestWithinThreeDeviationsIsBelieved() {
    judged(3);
    assertEquals(TestVerdict.BELIEVED, judged(4.4));
    assertEquals(TestVerdict.DOUBTED, judged(4.6));
  }

  /** S12: a pool without chlorine is not to wait for a second test. */
  @Test
  void aLowOneIsNeverDoubted() {
    judged(3);
    for (double readMgL : new double[] {1.6, 1.3, 0.5, 0}) {
      assertEquals(TestVerdict.BELIEVED, judged(readMgL), readMgL + " mg/L");
      assertFalse(tests.doubted().standing());
    }
    assertEquals(TestVerdict.BELIEVED, judged(0, 20), "however far off");
  }

  @Test
  void aSecondFarAboveBearsItOut() {
    judged(3);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(1);
    assertEquals(TestVerdict.BORNE_OUT, judged(7.5));
    assertFalse(tests.doubted().standing());
  }

  @Test
  void aLowOneAfterADoubtedOneIsBelievedAndSetsItAside() {
    judged(3);
    judged(6);
    assertTrue(tests.doubted().standing());
    assertEquals(TestVerdict.BELIEVED, judged(1), "even within the minute");
    assertFalse(tests.doubted().standing());
    assertEquals(1, tests.freeChlorineMgL());
    pass(1);
    assertEquals(TestVerdict.DOUBTED, judged(6), "the first is no longer remembered");
  }

  /** What counts is how far off it is of what is expected by then. */
  @Test
  void theChangeSinceIsAllowedFor() {
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BORNE_OUT, judged(3.7, 1.5));
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BELIEVED, judged(2.9, 1.5), "not far");
  }

  @Test
  void aSecondThatAgreesWithWhatWasExpectedSetsTheFirstAside() {
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BELIEVED, judged(3.2));
    assertFalse(tests.doubted().standing());
    assertEquals(TestVerdict.DOUBTED, judged(6), "no longer remembered");
  }

  /** The broker may deliver a message twice, and a person may press twice. */
  @Test
  void theSameMessageTwiceIsNoSecondTest() {
    judged(3);
    judged(6);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(299.0 / 86_400);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(301.0 / 86_400);
    assertEquals(TestVerdict.BORNE_OUT, judged(6));
  }

  /** Who tests every third week is believed at the second test too. */
  @Test
  void howLongApartTheyAreDoesNotMatter() {
    judged(3);
    judged(6);
    pass(21);
    assertEquals(TestVerdict.BORNE_OUT, judged(6));
  }

  /** It is not what gives the blind budget back, nor what ends an alarm of a fall. */
  @Test
  void aDoubtedOneIsNoFreshTest() {
    judged(3);
    assertTrue(tests.freeChlorineFresh(1));
    pass(1);
    assertFalse(tests.freeChlorineFresh(1));
    judged(6);
    assertFalse(tests.freeChlorineFresh(1));
    assertEquals(86_400, tests.freeChlorineAgeS());
    pass(1);
    judged(6);
    assertTrue(tests.freeChlorineFresh(1), "borne out");
    pass(1);
    judged(0);
    assertTrue(tests.freeChlorineFresh(1), "a low one at once");
  }
}
