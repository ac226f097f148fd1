package limnostat.estimate;

/**
 * What is remembered about a person's tests, besides what the filter learned from them.
 *
 * @param verdict verdict on the last test of free chlorine
 * @param freeChlorineAgeS time since the last trusted one, or since the first scan, s
 * @param freeChlorineMgL reading of the last one, mg/L; infinite: there was none
 * @param usedUpTests number of latest tests in a row that found the chlorine used up
 * @param kit resolution of the person's kit
 * @param stabiliserTested whether stabiliser was ever tested
 * @param stabiliserAgeS time since that test, or since the first scan, s
 * @param combinedChlorineMgL combined chlorine as last tested, mg/L; 0: none, or never tested
 * @param doubted the test that waits for confirmation
 * @param due whether a test is asked for
 */
public record TestLog(
    TestVerdict verdict,
    double freeChlorineAgeS,
    double freeChlorineMgL,
    int usedUpTests,
    KitSteps kit,
    boolean stabiliserTested,
    double stabiliserAgeS,
    double combinedChlorineMgL,
    Doubted doubted,
    TestDue due) {

  /**
   * A test below this finds the chlorine used up, mg/L: half of the sanitising minimum (judgement).
   */
  public static final double USED_UP_MG_L = 0.5;

  /** After this time such a test is out of date, s (judgement). */
  private static final double USED_UP_S = 3 * 86_400.0;

  public static final TestLog START =
      new TestLog(
          TestVerdict.NONE,
          0,
          Double.POSITIVE_INFINITY,
          0,
          KitSteps.UNKNOWN,
          false,
          0,
          0,
          Doubted.NONE,
          TestDue.NONE);

  /**
   * Time passes. A request for a test because free chlorine is uncertain stays until the test is
   * made, since the deviation goes up and down with every correction.
   *
   * @param sdFraction relative deviation of free chlorine
   * @param slow what is known about stabiliser
   */
  TestLog aged(double sdFraction, SlowAccount slow, double elapsedS) {
    TestLog later =
        new TestLog(
            verdict,
            freeChlorineAgeS + elapsedS,
            freeChlorineMgL,
            usedUpTests,
            kit,
            stabiliserTested,
            stabiliserAgeS + elapsedS,
            combinedChlorineMgL,
            doubted.aged(elapsedS),
            due);
    return due == TestDue.UNCERTAIN ? later : later.asking(TestDue.of(sdFraction, slow, later));
  }

  /** Records what a test says besides free chlorine. */
  TestLog with(WaterTest test) {
    boolean stabiliser = test.cyanuricAcidMgL().isPresent();
    return new TestLog(
        verdict,
        freeChlorineAgeS,
        freeChlorineMgL,
        usedUpTests,
        learns(test) ? kit.with(test.freeChlorineMgL().orElseThrow()) : kit,
        stabiliserTested || stabiliser,
        stabiliser ? 0 : stabiliserAgeS,
        test.combinedMgL().orElse(combinedChlorineMgL),
        doubted,
        due);
  }

  /** Records a test of free chlorine with its verdict. */
  TestLog with(TestVerdict judged, TestVerdict.Reading reading) {
    boolean doubt = judged == TestVerdict.DOUBTED;
    return new TestLog(
        judged,
        doubt ? freeChlorineAgeS : 0,
        reading.readMgL(),
        reading.readMgL() < USED_UP_MG_L ? usedUpTests + 1 : 0,
        kit,
        stabiliserTested,
        stabiliserAgeS,
        combinedChlorineMgL,
        doubt ? new Doubted(reading.readMgL(), reading.expectedMgL(), 0) : Doubted.NONE,
        TestDue.NONE);
  }

  /** Whether a reading shows the resolution of an unknown kit. */
  private static boolean learns(WaterTest test) {
    boolean stated = test.kit().map(used -> !used.key().isEmpty()).orElse(false);
    return test.freeChlorineMgL().isPresent() && test.glance().isEmpty() && !stated;
  }

  /** Deviation of a reading of free chlorine, by the stated kit or by the inferred steps, mg/L. */
  double sdMgL(WaterTest test, double readMgL) {
    return test.kit()
        .filter(used -> !used.key().isEmpty())
        .map(used -> used.sdMgL(readMgL))
        .orElseGet(() -> kit.sdMgL(readMgL));
  }

  /**
   * Number of tests in a row that found the chlorine used up; 0 if the last is older than some
   * days.
   */
  int usedUp() {
    return freeChlorineAgeS < USED_UP_S ? usedUpTests : 0;
  }

  /** Whether a trusted test of free chlorine came since the last scan. */
  public boolean freeChlorineFresh(double elapsedS) {
    return verdict != TestVerdict.NONE
        && verdict != TestVerdict.DOUBTED
        && freeChlorineAgeS <= elapsedS;
  }

  /** Whether a test of free chlorine or stabiliser came since the last scan. */
  public boolean fresh(double elapsedS) {
    return Math.min(freeChlorineAgeS, stabiliserAgeS) <= elapsedS;
  }

  private TestLog asking(TestDue next) {
    return new TestLog(
        verdict,
        freeChlorineAgeS,
        freeChlorineMgL,
        usedUpTests,
        kit,
        stabiliserTested,
        stabiliserAgeS,
        combinedChlorineMgL,
        doubted,
        next);
  }
}
