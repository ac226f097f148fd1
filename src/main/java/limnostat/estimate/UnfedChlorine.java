package limnostat.estimate;

/**
 * A person's test found chlorine that nobody fed or entered: the person is asked whether something
 * was added by hand. It holds nothing and moves nothing.
 *
 * @param readMgL what the test read, mg/L
 * @param expectedMgL what it was expected to read, mg/L
 * @param sdMgL standard deviation of the difference, mg/L
 * @param ageS time since, s; infinite: there is none
 */
public record UnfedChlorine(double readMgL, double expectedMgL, double sdMgL, double ageS) {
  public static final UnfedChlorine NONE = new UnfedChlorine(0, 0, 0, Double.POSITIVE_INFINITY);

  /** Farther above its expectation than its deviation explains, and than any pool is even by. */
  private static final double FROM_SD = 3;

  private static final double FROM_MG_L = 1;

  /** Nobody remembers for longer what went into a pool (engineering judgement), s. */
  private static final double ASKED_S = 3 * 86_400.0;

  /** What is read back from a ledger is checked as a stranger's would be. */
  public UnfedChlorine {
    if (!(ageS >= 0)
        || !Double.isFinite(readMgL)
        || !Double.isFinite(expectedMgL)
        || !Double.isFinite(sdMgL)) {
      throw new IllegalArgumentException(
          "a test of " + readMgL + " mg/L, expected " + expectedMgL + ", " + ageS + " s ago");
    }
  }

  /**
   * Whether a test reads above what is known by more than errors explain: z − x > 3 σ and z − x > 1
   * mg/L (engineering judgement). What reads below is no addition.
   *
   * @param readMgL what the test read, z, mg/L
   * @param expectedMgL what was expected by what was fed and used, x, mg/L
   * @param sdMgL standard deviation of their difference, that of the kit and of the expectation
   *     together, σ, mg/L
   */
  public static boolean suspected(double readMgL, double expectedMgL, double sdMgL) {
    double off = readMgL - expectedMgL;
    return off > FROM_MG_L && off > FROM_SD * sdMgL;
  }

  /** Whether a person is still asked. */
  public boolean standing() {
    return ageS <= ASKED_S;
  }

  UnfedChlorine aged(double elapsedS) {
    return new UnfedChlorine(readMgL, expectedMgL, sdMgL, ageS + elapsedS);
  }
}
