package limnostat.estimate;

/**
 * Free chlorine as the filter believes it at the moment, for what cannot wait for the scan's
 * estimate.
 *
 * @param mgL free chlorine, mg/L
 * @param sdMgL its standard deviation, mg/L
 */
public record BelievedNow(double mgL, double sdMgL) {

  /** The belief of a state, with what has been fed since it was last moved on. */
  public static BelievedNow of(EstimateState state) {
    Gaussian belief = state.belief();
    double mgL = StrictMath.exp(belief.mean()[PoolModel.LN_FREE_CHLORINE]);
    double sdShare = StrictMath.sqrt(belief.variance(PoolModel.LN_FREE_CHLORINE));
    return new BelievedNow(mgL + state.fed().riseMgL(), sdShare * mgL);
  }
}
