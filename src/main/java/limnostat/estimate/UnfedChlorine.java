package limnostat.estimate;

/**
 * A person's test found chlorine that was neither fed nor entered. The person is asked whether
 * something was added by hand. It inhibits nothing and changes no estimate.
 *
 * @param readMgL the test's reading, mg/L
 * @param expectedMgL the expected reading, mg/L
 * @param sdMgL standard deviation of the difference, mg/L
 * @param ageS time since the test, s; infinite: there is none
 */
public record UnfedChlorine(double readMgL, double expectedMgL, double sdMgL, double ageS) {
  public static final UnfedChlorine NONE = new UnfedChlorine(0, 0, 0, Double.POSITIVE_INFINITY);

  /**
   * Least excess over the expectation: more than the deviation explains, and than a pool varies
   * from place to place.
   */
  private static final double FROM_SD = 3;

  private static final double FROM_MG_L = 1;

  /** People do not remember for longer what went into a pool (engineering judgement), s. */
  private static final double ASKED_S = 3 * 86_400.0;

  /** Data read back from a ledger is checked like untrusted input. */
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
   * Whether a test reads further above the estimate than errors can explain: z − x > 3 σ and z − x
   * > 1 mg/L (engineering judgement). A low reading is no sign of an addition.
   *
   * @param readMgL the test's reading, z, mg/L
   * @param expectedMgL the reading expected from what was fed and used, x, mg/L
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
