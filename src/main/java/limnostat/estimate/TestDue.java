package limnostat.estimate;

/** Whether a person is asked for a water test, and why. */
public enum TestDue {
  NONE("none"),
  /** Free chlorine is no longer known well. */
  UNCERTAIN("uncertain"),
  /** The last test contradicts everything else, so it is to be repeated. */
  CONTRADICTED("contradicted"),
  /** Stabiliser was never tested, or is no longer known well. */
  STABILISER("stabiliser");

  private static final double DAY_S = 86400;

  /**
   * Relative deviation of free chlorine above which a test is worth a person's time, and the least
   * time between two requests (engineering judgement: a kit's own error is about a tenth, and Utah
   * requires tests at least weekly from public pools, water-chemistry section 10).
   */
  private static final double UNCERTAIN_SD_FRACTION = 0.15;

  private static final double UNCERTAIN_S = 5 * DAY_S;

  /** The least time if the estimate is not even certain enough to plan by. */
  private static final double UNSURE_S = 2 * DAY_S;

  /**
   * A stabiliser value from the configuration file should be tested after this time (engineering
   * judgement: the electrode's reading depends on it; Victoria requires this test from public pools
   * once a month).
   */
  private static final double STABILISER_FIRST_S = 7 * DAY_S;

  private final String key;

  TestDue(String key) {
    this.key = key;
  }

  /** Its name on the wire. */
  public String key() {
    return key;
  }

  /**
   * @param sdFraction relative deviation of free chlorine
   * @param slow what is known about stabiliser
   */
  static TestDue of(double sdFraction, SlowAccount slow, TestLog tests) {
    if (tests.doubted().standing()) {
      return CONTRADICTED;
    }
    if ((sdFraction > UNCERTAIN_SD_FRACTION && tests.freeChlorineAgeS() >= UNCERTAIN_S)
        || (!Estimate.sure(sdFraction) && tests.freeChlorineAgeS() >= UNSURE_S)) {
      return UNCERTAIN;
    }
    return stabiliserWanted(slow, tests) ? STABILISER : NONE;
  }

  /** Whether a test of stabiliser is wanted, regardless of other requests. */
  static boolean stabiliserWanted(SlowAccount slow, TestLog tests) {
    return slow.stabiliserUnsure()
        || (!tests.stabiliserTested() && tests.stabiliserAgeS() >= STABILISER_FIRST_S);
  }
}
