package limnostat.estimate;

/**
 * What is made of a person's test of free chlorine. One that reads far above everything else that
 * is known may be a misread kit or a sample from beside the inlet, or it may be right and the
 * estimate wrong: a second test tells. One that reads low always counts.
 */
public enum TestVerdict {
  /** There was none yet. */
  NONE,
  /** It corrects the belief. */
  BELIEVED,
  /** It counts in part, and is asked for again. */
  DOUBTED,
  /** It bears out the doubted one before it, and is believed. */
  BORNE_OUT;

  /** Farther above its expectation than so many deviations a test is doubted (judgement). */
  private static final double DOUBT_SD = 3;

  /** A reading below this stops no feed, whatever the target is, mg/L (judgement). */
  private static final double STOPS_MG_L = 2;

  private static final double FAR_SD = 2;

  /**
   * A doubted test can be borne out from this long after it, s: a message that comes twice is no
   * second test (engineering judgement).
   */
  private static final double BEARS_OUT_FROM_S = 300;

  /**
   * A test against its expectation.
   *
   * @param readMgL what the kit read, mg/L
   * @param expectedMgL what it was expected to read, mg/L
   * @param offSd how far off that is, in deviations of the two's difference
   */
  record Reading(double readMgL, double expectedMgL, double offSd) {
    /** Whether it is so far off that the belief was too sure of itself. */
    boolean farOff() {
      return Math.abs(offSd) > FAR_SD;
    }

    /** Whether it reads far above what is expected, so that to believe it would stop the feed. */
    boolean farAbove() {
      return offSd > DOUBT_SD && readMgL > STOPS_MG_L;
    }
  }

  /** Judges a test. A low one is never doubted: a pool without chlorine is not to wait. */
  static TestVerdict of(TestLog tests, Reading reading) {
    if (tests.verdict() == NONE || !reading.farAbove()) {
      return BELIEVED;
    }
    boolean second = tests.doubted().standing() && tests.doubted().ageS() >= BEARS_OUT_FROM_S;
    return second ? BORNE_OUT : DOUBTED;
  }
}
