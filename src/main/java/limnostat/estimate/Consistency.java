package limnostat.estimate;

/**
 * Whether the electrode shows what the filter expects of it: a running mean of the squared
 * innovations, each over its own variance, which is about 1 for a filter whose deviations are true
 * (normalised innovation squared; Bar-Shalom, Li and Kirubarajan, Estimation with Applications to
 * Tracking and Navigation, from memory).
 *
 * @param innovationMv difference between the last ORP and what was expected, mV
 * @param innovationSdMv what that difference was expected to scatter by, mV
 * @param misfit the running mean
 * @param lost whether electrode and estimate contradict each other for good
 */
public record Consistency(double innovationMv, double innovationSdMv, double misfit, boolean lost) {

  public static final Consistency START = new Consistency(0, 0, 1, false);

  /**
   * The mean forgets within this many corrections: half a day of pumping (engineering judgement).
   */
  private static final double CORRECTIONS = 12;

  /**
   * Lost once the hypothesis that ORP says nothing of the water has this weight, until it has this
   * little (engineering judgement).
   */
  private static final double LOST = 0.8;

  private static final double FOUND = 0.5;

  /** One innovation counts for no more than so much, or one wrong reading would do. */
  private static final double MOST = 36;

  /**
   * @param muteWeight weight of the hypothesis that ORP says nothing, 0–1
   */
  Consistency with(double nextMv, double nextSdMv, double muteWeight) {
    double square = Math.min(MOST, nextMv * nextMv / (nextSdMv * nextSdMv));
    double next = misfit + (square - misfit) / CORRECTIONS;
    return new Consistency(nextMv, nextSdMv, next, muteWeight > (lost ? FOUND : LOST));
  }
}
