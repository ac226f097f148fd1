package limnostat.estimate;

/**
 * The account of one dissolved substance that changes over weeks.
 *
 * <p>How much water is replaced, how fast stabiliser is lost and what the output really feeds are
 * unknown, but they do not change from day to day. Such errors add up and do not average out. So
 * the deviation of the change since the last entry grows with time itself, not with its square
 * root.
 *
 * @param mgL concentration, at least 0, mg/L; hardness and alkalinity as CaCO3
 * @param enteredSdMgL standard deviation of the last entered value, mg/L
 * @param driftSdMgL standard deviation of the change since, mg/L
 */
public record Dissolved(double mgL, double enteredSdMgL, double driftSdMgL) {

  /** Data read back from a ledger is checked like untrusted input. */
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

  /** Combined standard deviation of the two, which are independent, mg/L. */
  public double sdMgL() {
    return StrictMath.sqrt(square(enteredSdMgL) + square(driftSdMgL));
  }

  /**
   * Time has passed.
   *
   * @param nextMgL the new concentration; below 0 counts as 0
   * @param unsureMgL deviation of that change, mg/L
   */
  Dissolved changed(double nextMgL, double unsureMgL) {
    return new Dissolved(Math.max(0, nextMgL), enteredSdMgL, driftSdMgL + unsureMgL);
  }

  /** Tests with one kit share its error, so many are not much better than one (judgement). */
  private static final double SHARED_ERROR = 0.5;

  /**
   * A test: x⁺ = x + K (z − x), K = P/(P + R). If the account is off by more than it should be, it
   * has missed something, such as stabiliser added by hand or a half-drained pool. So its variance
   * P is at least (z − x)² − R: the less expected a test is, the more weight it gets.
   *
   * @param readMgL the test's reading, z, mg/L
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
