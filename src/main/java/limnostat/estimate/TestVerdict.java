package limnostat.estimate;

/**
 * Verdict on a person's test of free chlorine. A test that reads far above everything else known
 * may be a misread kit or a sample from beside the inlet. It may also be right, and the estimate
 * wrong. A second test decides. A low test always counts.
 */
public enum TestVerdict {
  /** No test yet. */
  NONE,
  /** It corrects the belief. */
  BELIEVED,
  /** It counts in part, and a repeat is requested. */
  DOUBTED,
  /** It confirms the doubted test before it, and is trusted. */
  BORNE_OUT;

  /** A test this many deviations above its expectation is doubted (judgement). */
  private static final double DOUBT_SD = 3;

  /** A reading below this does not stop the feed, whatever the target, mg/L (judgement). */
  private static final double STOPS_MG_L = 2;

  private static final double FAR_SD = 2;

  /**
   * A doubted test can be confirmed after this time, s: a message that arrives twice is not a
   * second test (engineering judgement).
   */
  private static final double BEARS_OUT_FROM_S = 300;

  /**
   * A test compared with its expectation.
   *
   * @param readMgL the kit's reading, mg/L
   * @param expectedMgL the expected reading, mg/L
   * @param offSd how far off the reading is, in deviations of the difference
   */
  record Reading(double readMgL, double expectedMgL, double offSd) {
    /** Whether it is so far off that the belief was too certain. */
    boolean farOff() {
      return Math.abs(offSd) > FAR_SD;
    }

    /** Whether it reads so far above its expectation that trusting it would stop the feed. */
    boolean farAbove() {
      return offSd > DOUBT_SD && readMgL > STOPS_MG_L;
    }
  }

  /** Judges a test. A low test is never doubted: a pool without chlorine must not wait. */
  static TestVerdict of(TestLog tests, Reading reading) {
    if (tests.verdict() == NONE || !reading.farAbove()) {
      return BELIEVED;
    }
    boolean second = tests.doubted().standing() && tests.doubted().ageS() >= BEARS_OUT_FROM_S;
    return second ? BORNE_OUT : DOUBTED;
  }
}
