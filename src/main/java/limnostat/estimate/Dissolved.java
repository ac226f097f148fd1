package limnostat.estimate;

/**
 * What the account says of one thing that is dissolved in the water and changes over weeks.
 *
 * <p>How much water is replaced, how fast stabiliser goes and what the output really gives are not
 * known, but they are the same today as tomorrow: such errors add up and do not average out. So the
 * deviation of what has changed since the last telling grows with time itself, not with its root.
 *
 * @param mgL at least 0, mg/L; hardness and alkalinity as CaCO3
 * @param enteredSdMgL standard deviation of what was last entered, mg/L
 * @param driftSdMgL standard deviation of what has changed since, mg/L
 */
public record Dissolved(double mgL, double enteredSdMgL, double driftSdMgL) {

  /** What is read back from a ledger is checked as a stranger's would be. */
  public Dissolved {
    requireAmount(mgL);
    requireAmount(enteredSdMgL);
    requireAmount(driftSdMgL);
  }

  private static void requireAmount(double x) {
    if (!(x >= 0 && x < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("no amount in water: " + x + " mg/L");
    }
  }

  /** Standard deviation of the two together, which are independent of each other, mg/L. */
  public double sdMgL() {
    return StrictMath.sqrt(square(enteredSdMgL) + square(driftSdMgL));
  }

  /**
   * Time has passed.
   *
   * @param nextMgL what there is now; below 0 counts as 0
   * @param unsureMgL by how much that change may be wrong, mg/L
   */
  Dissolved changed(double nextMgL, double unsureMgL) {
    return new Dissolved(Math.max(0, nextMgL), enteredSdMgL, driftSdMgL + unsureMgL);
  }

  /** Tests of one kit share its error, so that many are not much better than one (judgement). */
  private static final double SHARED_ERROR = 0.5;

  /**
   * A test: x⁺ = x + K (z − x), K = P/(P + R). An account that is off by more than it should be has
   * missed something, stabiliser added by hand or a pool half drained, so that its variance P is at
   * least what the surprise says, (z − x)² − R: an unexpected test is believed the more.
   *
   * @param readMgL what the test read, z, mg/L
   * @param errorSdMgL its standard deviation, √R, above 0, mg/L
   */
  Dissolved tested(double readMgL, double errorSdMgL) {
    double r = square(errorSdMgL);
    double p = Math.max(square(sdMgL()), square(readMgL - mgL) - r);
    double gain = p / (p + r);
    double sd = Math.max(StrictMath.sqrt(gain * r), SHARED_ERROR * errorSdMgL);
    return new Dissolved(mgL + gain * (readMgL - mgL), sd, 0);
  }

  private static double square(double x) {
    return x * x;
  }
}
