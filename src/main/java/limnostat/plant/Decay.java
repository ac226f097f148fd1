package limnostat.plant;

/**
 * The share of a difference that a first-order process keeps over a step. It is computed only when
 * the step changes, which is rare.
 */
final class Decay {
  private final double timeConstantS;
  private double dtS = 0;
  private double kept = 1;

  Decay(double timeConstantS) {
    this.timeConstantS = timeConstantS;
  }

  /** Share that is left after one step: {@code exp(-dt/T)}. */
  double over(double stepS) {
    if (stepS != dtS) {
      dtS = stepS;
      kept = StrictMath.exp(-stepS / timeConstantS);
    }
    return kept;
  }
}
