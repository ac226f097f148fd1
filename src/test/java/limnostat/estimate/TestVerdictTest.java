package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.estimate.TestVerdict.Reading;
import org.junit.jupiter.api.Test;

/** Expected 3 mg/L, give or take 0.5; a kit's scatter of 0.25 mg/L. */
class TestVerdictTest {
  private static final double KIT_SD_MG_L = 0.25;

  private TestLog tests = TestLog.START;

  private TestVerdict judged(boolean sure, double readMgL, double expectedMgL) {
    Reading reading = new Reading(readMgL, expectedMgL, 0.5);
    TestVerdict verdict = TestVerdict.of(sure, tests, reading, KIT_SD_MG_L);
    tests = tests.with(verdict, reading, KIT_SD_MG_L);
    return verdict;
  }

  private TestVerdict judged(double readMgL) {
    return judged(true, readMgL, 3);
  }

  private void pass(double days) {
    tests = tests.aged(0.1, 86_400 * days);
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
  void aSecondLikeItBearsItOut() {
    judged(3);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(1);
    // Within 2 deviations of the two kits' difference, 2 * 0.354 = 0.71 mg/L.
    assertEquals(TestVerdict.BORNE_OUT, judged(6.7));
    assertTrue(!tests.doubted().standing());
    judged(6);
    pass(1);
    assertEquals(TestVerdict.DOUBTED, judged(6.8), "0.8 mg/L apart: another doubted one");
    assertEquals(6.8, tests.doubted().readMgL());
  }

  /** From 6 on, the model expects a fall by 1.5: what lies between 4.5 and 6, and the scatter. */
  @Test
  void theChangeSinceIsAllowedFor() {
    for (double readMgL : new double[] {3.8, 4.5, 5.2, 6, 6.7}) {
      tests = TestLog.START;
      judged(3);
      judged(6);
      pass(1);
      assertEquals(TestVerdict.BORNE_OUT, judged(true, readMgL, 1.5), "" + readMgL);
    }
    tests = TestLog.START;
    judged(3);
    judged(6);
    pass(1);
    assertEquals(TestVerdict.DOUBTED, judged(true, 3.7, 1.5));
    assertEquals(TestVerdict.BELIEVED, judged(true, 1.6, 1.5));
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

  @Test
  void afterThreeDaysItBearsNothingOut() {
    judged(3);
    judged(6);
    pass(3.1);
    assertEquals(TestVerdict.DOUBTED, judged(6));
    pass(2.9);
    assertEquals(TestVerdict.BORNE_OUT, judged(6));
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
