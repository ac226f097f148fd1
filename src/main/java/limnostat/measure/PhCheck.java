package limnostat.measure;

/**
 * The pH electrode held against a person's tests. One that differs may be the test's own mistake;
 * two in a row that differ to the same side are the electrode's. One that reads lower is enough:
 * acid is fed by what the electrode says, and until the next test it had better not be.
 *
 * @param probe last good pH of the electrode
 * @param probeAgeS time since, s; infinite: never
 * @param testAgeS time since the last test, s; infinite: never
 * @param tested what that test read
 * @param beside what the electrode said then
 * @param off how many tests in a row have differed to the same side
 * @param calibration the one under which they were made: another one begins anew
 */
public record PhCheck(
    double probe,
    double probeAgeS,
    double testAgeS,
    double tested,
    double beside,
    int off,
    PhCalibration calibration) {

  static final PhCheck START =
      new PhCheck(
          0, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, 0, 0, 0, PhCalibration.IDEAL);

  /**
   * Difference that is more than a kit's 0.2 (common practice, no source) and a sound electrode's
   * 0.1 (engineering judgement).
   */
  public static final double MOST = 0.3;

  /** Water that stands keeps its pH for so long, s (engineering judgement). */
  private static final double PROBE_RECENT_S = 6 * 3600;

  /** A second test is one of its own after so long, s; a message may come twice. */
  private static final double ANOTHER_S = 300;

  private static final int PERSISTENT = 2;

  PhCheck step(PhCalibration now, Measurement ph, double elapsedS) {
    boolean same = now.equals(calibration);
    boolean fresh = ph.fresh();
    return new PhCheck(
        fresh ? ph.orElse(probe) : probe,
        fresh ? 0 : same ? probeAgeS + elapsedS : Double.POSITIVE_INFINITY,
        testAgeS + elapsedS,
        tested,
        beside,
        same ? off : 0,
        now);
  }

  /** Time passes, and nobody looks. */
  PhCheck aged(double elapsedS) {
    return new PhCheck(
        probe, probeAgeS + elapsedS, testAgeS + elapsedS, tested, beside, off, calibration);
  }

  /** A person tested pH. */
  PhCheck tested(double ph) {
    if (!(probeAgeS <= PROBE_RECENT_S)) {
      return this;
    }
    double difference = ph - probe;
    int next =
        !(Math.abs(difference) > MOST)
            ? 0
            : off == 0 || difference * (tested - beside) <= 0
                ? 1
                : testAgeS < ANOTHER_S ? off : off + 1;
    return new PhCheck(probe, probeAgeS, 0, ph, probe, next, calibration);
  }

  /**
   * Whether a test has just found what the electrode says.
   *
   * @param withinS how long ago, at most, s
   */
  public boolean agreed(double withinS) {
    return testAgeS <= withinS && off == 0;
  }

  public boolean disagrees() {
    return off >= PERSISTENT || (off > 0 && tested < beside);
  }
}
