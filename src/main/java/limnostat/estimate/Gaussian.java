package limnostat.estimate;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;

/**
 * Mean and covariance of a state vector; never written to after it was made.
 *
 * @param mean one entry a state
 * @param covariance row by row
 */
@SuppressWarnings("ArrayRecordComponent") // equals and hashCode below take the arrays by content
public record Gaussian(double[] mean, double[] covariance) {

  /** What is read back from a ledger is checked as a stranger's would be. */
  public Gaussian {
    if (covariance.length != mean.length * mean.length) {
      throw new IllegalArgumentException("covariance does not fit the mean");
    }
    for (double x : mean) {
      requireFinite(x);
    }
    for (double x : covariance) {
      requireFinite(x);
    }
    for (int i = 0; i < mean.length; i++) {
      if (covariance[i * mean.length + i] < 0) {
        throw new IllegalArgumentException("variance " + i + " is negative");
      }
    }
  }

  private static void requireFinite(double x) {
    if (!Double.isFinite(x)) {
      throw new IllegalArgumentException("a belief that is not finite: " + x);
    }
  }

  static Gaussian independent(double[] mean, double[] sd) {
    double[] covariance = new double[mean.length * mean.length];
    for (int i = 0; i < mean.length; i++) {
      covariance[i * mean.length + i] = sd[i] * sd[i];
    }
    return new Gaussian(mean, covariance);
  }

  int size() {
    return mean.length;
  }

  double variance(int state) {
    return covariance[state * size() + state];
  }

  /**
   * The same belief with a deviation of one state of at most {@code sd}: its row and column are
   * scaled, so that correlations stay and the covariance stays positive definite.
   */
  Gaussian narrowed(int state, double sd) {
    double scale = sd / StrictMath.sqrt(variance(state));
    if (!(scale < 1)) {
      return this;
    }
    double[] next = covariance.clone();
    for (int i = 0; i < size(); i++) {
      next[state * size() + i] *= scale;
      next[i * size() + state] *= scale;
    }
    return new Gaussian(mean, next);
  }

  /** The same with another mean of one state. */
  Gaussian shifted(int state, double by) {
    if (by == 0) {
      return this;
    }
    double[] next = mean.clone();
    next[state] += by;
    return new Gaussian(next, covariance);
  }

  /** The same belief, less sure of one state by a standard deviation. */
  Gaussian widened(int state, double sd) {
    double[] next = covariance.clone();
    next[state * (size() + 1)] += sd * sd;
    return new Gaussian(mean, next);
  }

  /** What is measured of a state: z = h(x) + v. */
  interface Sensor {
    double expected(double[] x);

    double[] slope(double[] x);
  }

  /**
   * A corrected belief.
   *
   * @param innovation measurement less its expectation before the correction
   * @param innovationSd what that may scatter by
   */
  record Correction(Gaussian belief, double innovation, double innovationSd) {}

  /**
   * Prediction: P⁺ = A P Aᵀ + Q.
   *
   * @param next new mean
   * @param transition A, row by row
   * @param noise diagonal of Q
   */
  Gaussian predict(double[] next, double[] transition, double[] noise) {
    int n = size();
    double[] ap = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        double a = transition[i * n + k];
        if (a != 0) {
          for (int j = 0; j < n; j++) {
            ap[i * n + j] += a * covariance[k * n + j];
          }
        }
      }
    }
    double[] p = new double[n * n];
    for (int j = 0; j < n; j++) {
      for (int k = 0; k < n; k++) {
        double a = transition[j * n + k];
        if (a != 0) {
          for (int i = 0; i < n; i++) {
            p[i * n + j] += ap[i * n + k] * a;
          }
        }
      }
      p[j * n + j] += noise[j];
    }
    return new Gaussian(next, p);
  }

  /**
   * One scalar measurement, iterated (Gauss–Newton) as the sensors are curved, and robust: a
   * measurement far off what is believed is given a larger variance, as a Student-t likelihood of
   * the degrees of freedom ν would, w = (ν + 1)/(ν + r²/s).
   */
  Correction correct(double z, double variance, double freedom, Sensor sensor) {
    int n = size();
    RealMatrix p = matrix(covariance, n);
    double innovation = z - sensor.expected(mean);
    double[] slope = sensor.slope(mean);
    double before = quadratic(p, slope) + variance;
    double weight = (freedom + 1) / (freedom + innovation * innovation / before);
    double r = variance / Math.min(1, weight);
    double[] x = mean;
    double[] gain = new double[n];
    for (int iteration = 0; iteration < 4; iteration++) {
      double[] h = sensor.slope(x);
      double[] ph = p.operate(h);
      double s = dot(h, ph) + r;
      double residual = z - sensor.expected(x);
      for (int i = 0; i < n; i++) {
        residual -= h[i] * (mean[i] - x[i]);
      }
      double[] next = new double[n];
      for (int i = 0; i < n; i++) {
        gain[i] = ph[i] / s;
        next[i] = mean[i] + gain[i] * residual;
      }
      x = next;
      slope = h;
    }
    // P⁺ = (I − K h) P (I − K h)ᵀ + K R Kᵀ: Joseph's form stays positive definite under rounding.
    RealMatrix k = new Array2DRowRealMatrix(gain);
    RealMatrix a =
        MatrixUtils.createRealIdentityMatrix(n)
            .subtract(k.multiply(new Array2DRowRealMatrix(slope).transpose()));
    RealMatrix updated =
        a.multiply(p).multiplyTransposed(a).add(k.multiplyTransposed(k).scalarMultiply(r));
    return new Correction(new Gaussian(x, flat(updated)), innovation, StrictMath.sqrt(before));
  }

  private static double quadratic(RealMatrix p, double[] h) {
    return dot(h, p.operate(h));
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private static RealMatrix matrix(double[] flat, int n) {
    RealMatrix m = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        m.setEntry(i, j, flat[i * n + j]);
      }
    }
    return m;
  }

  /** Row by row, made symmetric: the two halves differ by rounding only. */
  private static double[] flat(RealMatrix m) {
    int n = m.getRowDimension();
    double[] flat = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        flat[i * n + j] = (m.getEntry(i, j) + m.getEntry(j, i)) / 2;
      }
    }
    return flat;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Gaussian that
        && Arrays.equals(mean, that.mean)
        && Arrays.equals(covariance, that.covariance);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(mean) + Arrays.hashCode(covariance);
  }

  @Override
  public String toString() {
    return "mean " + Arrays.toString(mean);
  }
}
