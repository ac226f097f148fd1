package limnostat.estimate;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;

/**
 * Mean and covariance of the three states: free chlorine F (mg/L), loss rate k (1/day), electrode
 * offset o (mV).
 *
 * @param ff variance of F
 * @param fk covariance of F and k
 * @param fo covariance of F and o
 * @param kk variance of k
 * @param ko covariance of k and o
 * @param oo variance of o
 */
public record Belief(
    double freeChlorineMgL,
    double lossPerDay,
    double offsetMv,
    double ff,
    double fk,
    double fo,
    double kk,
    double ko,
    double oo) {

  /** A belief read back from a ledger is checked as a stranger's would be. */
  public Belief {
    boolean finite =
        Double.isFinite(freeChlorineMgL + lossPerDay + offsetMv + ff + fk + fo + kk + ko + oo);
    if (!finite || freeChlorineMgL < 0 || lossPerDay < 0 || ff < 0 || kk < 0 || oo < 0) {
      throw new IllegalArgumentException(
          "belief is not finite and positive: " + freeChlorineMgL + ", " + lossPerDay);
    }
  }

  /** Least free chlorine and loss rate that can be believed: both are positive by nature. */
  static final double FREE_CHLORINE_FLOOR_MG_L = 0.02;

  static final double LOSS_FLOOR = 0.02;

  // Wander of the states, standard deviation after a day (engineering judgement).
  private static final double FREE_CHLORINE_WANDER_MG_L = 0.4;
  private static final double LOSS_WANDER = 0.15;
  private static final double OFFSET_WANDER_MV = 4;

  /**
   * A corrected belief, with how far the measurement was from what was expected and by how much
   * that may scatter.
   */
  record Correction(Belief belief, double innovation, double innovationSd) {}

  /**
   * Prediction in closed form, as it runs on every scan: F⁺ = F e^(−k s Δt) + u/V, A = [e, −s Δt F
   * e, 0; 0, 1, 0; 0, 0, 1], P⁺ = A P Aᵀ + Q Δt.
   *
   * @param riseMgL what the dose adds, u/V, mg/L
   * @param shape the loss of this moment against the day's mean
   * @param days time passed
   */
  Belief predict(double riseMgL, double shape, double days) {
    double e = StrictMath.exp(-lossPerDay * shape * days);
    double a = -shape * days * freeChlorineMgL * e;
    return new Belief(
        freeChlorineMgL * e + riseMgL,
        lossPerDay,
        offsetMv,
        e * e * ff + 2 * e * a * fk + a * a * kk + square(FREE_CHLORINE_WANDER_MG_L) * days,
        e * fk + a * kk,
        e * fo + a * ko,
        kk + square(LOSS_WANDER) * days,
        ko,
        oo + square(OFFSET_WANDER_MV) * days);
  }

  /**
   * One scalar measurement z = h x + v.
   *
   * @param difference z less its expectation
   * @param slopeF derivative of the expectation by F
   * @param slopeO derivative by o
   * @param variance of v
   * @param boundSd a difference moves the mean by no more than this many of its standard deviations
   *     (Huber's bounded influence): one wrong reading must not ruin a month
   */
  Correction correct(
      double difference, double slopeF, double slopeO, double variance, double boundSd) {
    RealMatrix p =
        new Array2DRowRealMatrix(new double[][] {{ff, fk, fo}, {fk, kk, ko}, {fo, ko, oo}});
    RealMatrix h = new Array2DRowRealMatrix(new double[][] {{slopeF, 0, slopeO}});
    // S = h P hᵀ + R, K = P hᵀ/S
    RealMatrix pht = p.multiplyTransposed(h);
    double s = h.multiply(pht).getEntry(0, 0) + variance;
    RealMatrix gain = pht.scalarMultiply(1 / s);
    double sd = StrictMath.sqrt(s);
    double bounded = Math.max(-boundSd * sd, Math.min(boundSd * sd, difference));
    // P⁺ = (I − K h) P (I − K h)ᵀ + K R Kᵀ: Joseph's form stays positive definite under rounding.
    RealMatrix a = MatrixUtils.createRealIdentityMatrix(3).subtract(gain.multiply(h));
    RealMatrix updated =
        a.multiply(p)
            .multiplyTransposed(a)
            .add(gain.multiplyTransposed(gain).scalarMultiply(variance));
    return new Correction(
        new Belief(
            Math.max(FREE_CHLORINE_FLOOR_MG_L, freeChlorineMgL + gain.getEntry(0, 0) * bounded),
            Math.max(LOSS_FLOOR, lossPerDay + gain.getEntry(1, 0) * bounded),
            offsetMv + gain.getEntry(2, 0) * bounded,
            updated.getEntry(0, 0),
            updated.getEntry(0, 1),
            updated.getEntry(0, 2),
            updated.getEntry(1, 1),
            updated.getEntry(1, 2),
            updated.getEntry(2, 2)),
        difference,
        sd);
  }

  private static double square(double x) {
    return x * x;
  }
}
