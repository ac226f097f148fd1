package limnostat.estimate;

/**
 * The filter's present estimate of free chlorine, for uses that cannot wait for the scan's
 * estimate.
 *
 * @param mgL free chlorine, mg/L
 * @param sdMgL its standard deviation, mg/L
 */
public record BelievedNow(double mgL, double sdMgL) {

  /** The belief of a state, plus what has been fed since its last prediction. */
  public static BelievedNow of(EstimateState state) {
    Gaussian belief = state.belief();
    double mgL = StrictMath.exp(belief.mean()[PoolModel.LN_FREE_CHLORINE]);
    double sdShare = StrictMath.sqrt(belief.variance(PoolModel.LN_FREE_CHLORINE));
    return new BelievedNow(mgL + state.fed().riseMgL(), sdShare * mgL);
  }
}
