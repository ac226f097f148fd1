package limnostat.plant;

/**
 * What a first-order process keeps of a difference over a step. It is worked out only when the step
 * changes, which it seldom does.
 */
final class Decay {
  private final double timeConstantS;
  private double dtS = 0;
  private double kept = 1;

  Decay(double timeConstantS) {
    this.timeConstantS = timeConstantS;
  }

  /** Share that is left after a step: {@code exp(-dt/T)}. */
  double over(double stepS) {
    if (stepS != dtS) {
      dtS = stepS;
      kept = StrictMath.exp(-stepS / timeConstantS);
    }
    return kept;
  }
}
