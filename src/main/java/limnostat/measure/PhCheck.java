package limnostat.measure;

/**
 * Checks the pH electrode against a person's tests. If one test differs, the test itself may be
 * wrong. If two in a row differ to the same side, the electrode is wrong. One test that reads lower
 * is enough, since acid is fed by the electrode's reading, and none should be fed until the next
 * test.
 *
 * @param probe last good pH of the electrode
 * @param probeAgeS time since that pH, s; infinite: never
 * @param testAgeS time since the last test, s; infinite: never
 * @param tested reading of that test
 * @param beside reading of the electrode at that time
 * @param off how many tests in a row have differed to the same side
 * @param calibration the calibration during those tests; a new one starts the count again
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
   * Largest difference that a kit's 0.2 (common practice, no source) and a good electrode's 0.1
   * (engineering judgement) explain.
   */
  public static final double MOST = 0.3;

  /** Standing water keeps its pH for this long, s (engineering judgement). */
  private static final double PROBE_RECENT_S = 6 * 3600;

  /** After this time a second test counts as a separate one, s: a message may arrive twice. */
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

  /** Time passes without observation. */
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
   * Whether a recent test agrees with the electrode.
   *
   * @param withinS greatest age of the test, s
   */
  public boolean agreed(double withinS) {
    return testAgeS <= withinS && off == 0;
  }

  public boolean disagrees() {
    return off >= PERSISTENT || (off > 0 && tested < beside);
  }
}
