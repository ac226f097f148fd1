package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.estimate.TestVerdict.Reading;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

/** Expected 3 mg/L, give or take 0.5. */
class TestVerdictTest {
  private static final SlowAccount SLOW =
      SlowAccount.start(SlowSettings.told(40, 3400, ChlorineForm.SALT_CELL, 1));

  private TestLog tests = TestLog.START;

  private TestVerdict judged(boolean sure, double readMgL, double expectedMgL) {
    Reading reading = new Reading(readMgL, expectedMgL, 0.5);
    TestVerdict verdict = TestVerdict.of(sure, tests, reading);
    tests = tests.with(verdict, reading);
    return verdict;
  }

  private TestVerdict judged(double readMgL) {
    return judged(true, readMgL, 3);
  }

  private void pass(double days) {
    tests = tests.aged(0.1, SLOW, 86_400 * days);
  }

  @Test
  void theFirstTestIsBelievedWhateverItReads() {
    assertEquals(TestVerdict.BELIEVED, judged(9));
  }

  @Test
  void aTestWithinThreeAndAHalfDeviationsIsBelieved() {
    judged(3);
    assertEquals(TestVerdict.BELIEVED, judged(4.7));
    assertEquals(TestVerdict.BELIEVED, judged(1.3));
    assertEquals(TestVerdict.DOUBTED, judged(4.8));
    tests = TestLog.START;
    judged(3);
    assertEquals(TestVerdict.DOUBTED, judged(1.2));
  }

  @Test
  void whileTheEstimateIsUnsureEveryTestIsBelieved() {
    judged(3);
    assertEquals(TestVerdict.BELIEVED, judged(false, 9, 3));
  }

  @Test
  void aSecondFarOffOnTheSameSideBearsItOut() {
    judged(3);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(1);
    assertEquals(TestVerdict.BORNE_OUT, judged(7.5));
    assertTrue(!tests.doubted().standing());
  }

  @Test
  void oneOnTheOtherSideIsAnotherDoubtedOne() {
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.DOUBTED, judged(1));
    assertEquals(1, tests.doubted().readMgL());
  }

  /** What counts is how far off it is of what is expected by then. */
  @Test
  void theChangeSinceIsAllowedFor() {
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BORNE_OUT, judged(true, 3.7, 1.5));
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BELIEVED, judged(true, 3.2, 1.5), "not far");
  }

  @Test
  void aSecondThatAgreesWithWhatWasExpectedSetsTheFirstAside() {
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.BELIEVED, judged(3.2));
    assertTrue(!tests.doubted().standing());
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
    judged(0.5);
    pass(21);
    assertEquals(TestVerdict.BORNE_OUT, judged(1));
  }

  /** Both deviations grow to what the two tests are off by, in ln and by the electrode's slope. */
  @Test
  void theWidenedBeliefReachesToTheTest() {
    double[] sd = new double[PoolModel.STATES];
    java.util.Arrays.fill(sd, 0.1);
    Gaussian belief = Gaussian.independent(new double[PoolModel.STATES], sd);
    Mixture.Hypothesis hypothesis = new Mixture.Hypothesis(60, belief, 0);
    Gaussian wide = TestVerdict.widened(hypothesis, new Reading(6, 3, 0.5));
    assertEquals(0.01 + Math.pow(Math.log(2), 2), wide.variance(PoolModel.LN_FREE_CHLORINE), 1e-12);
    assertEquals(0.01 + Math.pow(60 * Math.log10(2), 2), wide.variance(PoolModel.OFFSET), 1e-9);
    assertEquals(0.01, wide.variance(PoolModel.LN_GAIN), 1e-12);
    assertEquals(0.01, belief.variance(PoolModel.OFFSET), 1e-12, "the belief before is untouched");
    assertTrue(
        Double.isFinite(
            TestVerdict.widened(hypothesis, new Reading(0, 3, 0.5))
                .variance(PoolModel.LN_FREE_CHLORINE)),
        "a test of nothing");
  }
}
