package limnostat.estimate;

/**
 * Whether the electrode shows what the filter expects. This is a running mean of the squared
 * innovations, each divided by its own variance. It is about 1 for a filter whose deviations are
 * right (normalised innovation squared; Bar-Shalom, Li and Kirubarajan, Estimation with
 * Applications to Tracking and Navigation, from memory).
 *
 * @param innovationMv difference between the last ORP and its expectation, mV
 * @param innovationSdMv expected deviation of that difference, mV
 * @param misfit the running mean
 * @param lost whether the electrode and the estimate persistently contradict each other
 */
public record Consistency(double innovationMv, double innovationSdMv, double misfit, boolean lost) {

  public static final Consistency START = new Consistency(0, 0, 1, false);

  /** The mean forgets over this many corrections: half a day of pumping (engineering judgement). */
  private static final double CORRECTIONS = 12;

  /**
   * Lost above this weight of the hypothesis that ORP says nothing about the water, and found again
   * at or below the second value (engineering judgement).
   */
  private static final double LOST = 0.8;

  private static final double FOUND = 0.5;

  /** Cap on one squared innovation, or a single wrong reading would be enough. */
  private static final double MOST = 36;

  /**
   * @param muteWeight weight of the hypothesis that ORP says nothing about the water, 0–1
   */
  Consistency with(double nextMv, double nextSdMv, double muteWeight) {
    double square = Math.min(MOST, nextMv * nextMv / (nextSdMv * nextSdMv));
    double next = misfit + (square - misfit) / CORRECTIONS;
    return new Consistency(nextMv, nextSdMv, next, muteWeight > (lost ? FOUND : LOST));
  }
}
