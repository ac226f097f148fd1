package limnostat.estimate;

/**
 * A test of free chlorine that is not believed until another bears it out.
 *
 * @param readMgL what it read, mg/L
 * @param expectedMgL what it was expected to read, mg/L
 * @param ageS time since, s; infinite: there is none
 */
public record Doubted(double readMgL, double expectedMgL, double ageS) {
  static final Doubted NONE = new Doubted(0, 0, Double.POSITIVE_INFINITY);

  private static final double FRESH_S = 86_400;

  /** Whether there is one that no later test has settled. */
  public boolean standing() {
    return ageS < Double.POSITIVE_INFINITY;
  }

  /**
   * What it read, while it is fresh, mg/L; else 0. Were it right and nothing fed since, a day's
   * loss would by now have changed as much as most tests are off (engineering judgement): it is no
   * longer a reason to hold chlorine.
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
