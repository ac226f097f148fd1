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

  /**
   * A doubted test can be borne out from this long after it, s: a message that comes twice is no
   * second test (engineering judgement).
   */
  private static final double BEARS_OUT_FROM_S = 300;

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
      return Math.abs(offMgL()) > DOUBT_SD * expectedSdMgL;
    }

    double offMgL() {
      return readMgL - expectedMgL;
    }
  }

  /**
   * Judges a test.
   *
   * @param sure whether the belief is sure enough to doubt a test by
   */
  static TestVerdict of(boolean sure, TestLog tests, Reading reading) {
    if (tests.verdict() == NONE || !sure) {
      return BELIEVED;
    }
    if (!reading.far()) {
      return BELIEVED;
    }
    return bearsOut(reading, tests.doubted()) ? BORNE_OUT : DOUBTED;
  }

  /**
   * Two tests in a row that are far off on the same side, however long apart and however much the
   * water has changed between them: misreadings scatter to both.
   */
  private static boolean bearsOut(Reading now, Doubted doubted) {
    return doubted.standing()
        && doubted.ageS() >= BEARS_OUT_FROM_S
        && doubted.offMgL() * now.offMgL() > 0;
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
}
