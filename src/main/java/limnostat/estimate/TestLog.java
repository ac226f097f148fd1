package limnostat.estimate;

/**
 * What is remembered of a person's tests, beside what they have taught the filter.
 *
 * @param verdict on the last test of free chlorine
 * @param freeChlorineAgeS time since the last believed one, or since the first scan, s
 * @param freeChlorineMgL what the last one read, mg/L; infinite: there was none
 * @param usedUpTests how many tests in a row found chlorine used up, the last ones
 * @param kit how fine the person's kit reads
 * @param stabiliserTested whether stabiliser was ever tested
 * @param stabiliserAgeS time since, or since the first scan, s
 * @param combinedChlorineMgL combined chlorine as last tested, mg/L; 0: none, or never tested
 * @param doubted the test that waits for another
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

  /** A test below this finds chlorine used up, mg/L: half of the sanitising minimum (judgement). */
  public static final double USED_UP_MG_L = 0.5;

  /** So long after it what was found is no longer what there is, s (judgement). */
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
   * Time passes. A test that is asked for as free chlorine is not known well stays asked for until
   * it is made: the deviation comes and goes with every correction.
   *
   * @param sdFraction deviation of free chlorine as a share of it
   * @param slow what is known of stabiliser
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

  /** What a test tells beside free chlorine. */
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

  /** A test of free chlorine, as it was judged. */
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

  /** Whether a reading tells how fine a kit reads of which nothing else is known. */
  private static boolean learns(WaterTest test) {
    boolean stated = test.kit().map(used -> !used.key().isEmpty()).orElse(false);
    return test.freeChlorineMgL().isPresent() && test.glance().isEmpty() && !stated;
  }

  /** Deviation of a reading of free chlorine, by the kit that is stated or by its steps, mg/L. */
  double sdMgL(WaterTest test, double readMgL) {
    return test.kit()
        .filter(used -> !used.key().isEmpty())
        .map(used -> used.sdMgL(readMgL))
        .orElseGet(() -> kit.sdMgL(readMgL));
  }

  /** How many tests in a row found chlorine used up, the last not older than some days. */
  int usedUp() {
    return freeChlorineAgeS < USED_UP_S ? usedUpTests : 0;
  }

  /** Whether a test of free chlorine that counts came since the last scan. */
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
