package limnostat.estimate;

/**
 * What is made of a person's test of free chlorine. One that lies far outside everything else that
 * is known may be a misread kit, old reagents or a sample from beside the inlet, or it may be right
 * and the estimate wrong: a second test tells.
 */
public enum TestVerdict {
  /** There was none yet. */
  NONE,
  /** It corrects the belief. */
  BELIEVED,
  /** It is kept, changes nothing, and is asked for again. */
  DOUBTED,
  /** It bears out the doubted one before it: both are believed, and what was known is not. */
  BORNE_OUT;

  /** Farther from its expectation than this many deviations a test is doubted (judgement). */
  private static final double DOUBT_SD = 3.5;

  /** Two tests agree within this many deviations of their difference. */
  private static final double AGREE_SD = 2;

  /**
   * A doubted test can be borne out from this long after it, as a message that comes twice is no
   * second test, until too much has changed (engineering judgement).
   */
  private static final double BEARS_OUT_FROM_S = 300;

  private static final double BEARS_OUT_UNTIL_S = 3 * 86_400.0;

  /** What a kit tells from nothing, mg/L. */
  private static final double LEAST_MG_L = 0.1;

  private static final double LN_10 = StrictMath.log(10);

  /**
   * A test against its expectation.
   *
   * @param readMgL what the kit read, mg/L
   * @param expectedMgL what it was expected to read, mg/L
   * @param expectedSdMgL deviation of the two's difference, mg/L
   */
  record Reading(double readMgL, double expectedMgL, double expectedSdMgL) {
    boolean far() {
      return Math.abs(readMgL - expectedMgL) > DOUBT_SD * expectedSdMgL;
    }
  }

  /**
   * Judges a test.
   *
   * @param sure whether the belief is sure enough to doubt a test by
   * @param kitSdMgL scatter of the kit at what it read, mg/L
   */
  static TestVerdict of(boolean sure, TestLog tests, Reading reading, double kitSdMgL) {
    if (tests.verdict() == NONE || !sure) {
      return BELIEVED;
    }
    if (agree(tests.doubted(), reading, kitSdMgL)) {
      return BORNE_OUT;
    }
    return reading.far() ? DOUBTED : BELIEVED;
  }

  /**
   * Whether the doubted test and this one say the same: what lies between no change since and the
   * change that was expected, and the kit's scatter about that.
   */
  private static boolean agree(Doubted doubted, Reading now, double kitSdMgL) {
    double change = now.expectedMgL - doubted.expectedMgL();
    double apart = now.readMgL - (doubted.readMgL() + change / 2);
    double scatter = StrictMath.sqrt(square(kitSdMgL) + square(doubted.kitSdMgL()));
    return doubted.ageS() >= BEARS_OUT_FROM_S
        && doubted.ageS() <= BEARS_OUT_UNTIL_S
        && Math.abs(apart) <= AGREE_SD * scatter + Math.abs(change) / 2;
  }

  /**
   * The belief after two tests have borne each other out against it: free chlorine and the
   * electrode's level are as uncertain as these two are off, each by itself, so that the test tells
   * the one and the electrode, whose reading is what misled, is fitted to it anew.
   */
  static Gaussian widened(Mixture.Hypothesis hypothesis, Reading reading) {
    Gaussian belief = hypothesis.belief();
    double off =
        StrictMath.log(Math.max(LEAST_MG_L, reading.readMgL))
            - StrictMath.log(Math.max(LEAST_MG_L, reading.expectedMgL));
    return belief
        .widened(PoolModel.LN_FREE_CHLORINE, off)
        .widened(PoolModel.OFFSET, hypothesis.slopeMv() * off / LN_10);
  }

  private static double square(double x) {
    return x * x;
  }
}
