package limnostat.estimate;

/**
 * A test of free chlorine that is not trusted until another confirms it.
 *
 * @param readMgL the reading, mg/L
 * @param expectedMgL the expected reading, mg/L
 * @param ageS time since the test, s; infinite: there is none
 */
public record Doubted(double readMgL, double expectedMgL, double ageS) {
  static final Doubted NONE = new Doubted(0, 0, Double.POSITIVE_INFINITY);

  private static final double FRESH_S = 86_400;

  /** Whether there is a doubted test that no later test has settled. */
  public boolean standing() {
    return ageS < Double.POSITIVE_INFINITY;
  }

  /**
   * The reading while it is fresh, mg/L; else 0. After a day it is no longer a reason to inhibit
   * chlorine: even if it was right and nothing was fed since, a day's loss is as large as the error
   * of most tests (engineering judgement).
   */
  public double freshMgL() {
    return ageS <= FRESH_S ? readMgL : 0;
  }

  double offMgL() {
    return readMgL - expectedMgL;
  }

  Doubted aged(double elapsedS) {
    return new Doubted(readMgL, expectedMgL, ageS + elapsedS);
  }
}
