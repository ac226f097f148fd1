package limnostat.estimate;

/** Whether a person is asked for a water test, and for which reason. */
public enum TestDue {
  NONE("none"),
  /** Free chlorine is no longer known well. */
  UNCERTAIN("uncertain"),
  /** The last test contradicts everything else and is asked for again. */
  CONTRADICTED("contradicted"),
  /** Stabiliser was never tested, or is no longer known well. */
  STABILISER("stabiliser");

  private static final double DAY_S = 86400;

  /**
   * Deviation above which a test is worth a person's time, as a share of free chlorine, and the
   * least time between two that are asked for (engineering judgement: a kit's own error is about a
   * tenth, and tests at least weekly are asked of public pools by Utah, water-chemistry section
   * 10).
   */
  private static final double UNCERTAIN_SD_FRACTION = 0.15;

  private static final double UNCERTAIN_S = 5 * DAY_S;

  /** The least time where the estimate is not even sure enough to plan by. */
  private static final double UNSURE_S = 2 * DAY_S;

  /**
   * What the file says of stabiliser is to be tested after this long (engineering judgement: the
   * electrode is read by it; Victoria asks it of public pools once a month).
   */
  private static final double STABILISER_FIRST_S = 7 * DAY_S;

  private final String key;

  TestDue(String key) {
    this.key = key;
  }

  /** As the wire has it. */
  public String key() {
    return key;
  }

  /**
   * @param sdFraction deviation of free chlorine as a share of it
   * @param slow what is known of stabiliser
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

  /** Whether a test of stabiliser is wanted, whatever else is. */
  static boolean stabiliserWanted(SlowAccount slow, TestLog tests) {
    return slow.stabiliserUnsure()
        || (!tests.stabiliserTested() && tests.stabiliserAgeS() >= STABILISER_FIRST_S);
  }
}
