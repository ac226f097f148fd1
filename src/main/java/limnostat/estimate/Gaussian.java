package limnostat.estimate;

import java.util.Arrays;

/**
 * Mean and covariance of a state vector. Never modified after construction.
 *
 * @param mean one entry per state
 * @param covariance row by row
 */
@SuppressWarnings("ArrayRecordComponent") // equals and hashCode below compare the arrays by content
public record Gaussian(double[] mean, double[] covariance) {
  /** Gauss–Newton steps of a correction: the sensors are only mildly non-linear. */
  private static final int ITERATIONS = 4;

  /** Data read back from a ledger is checked like untrusted input. */
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

  /** Probability that a state is below a value, 0–1. */
  double below(int state, double value) {
    return normal((value - mean[state]) / StrictMath.sqrt(Math.max(1e-12, variance(state))));
  }

  /**
   * Standard normal distribution, to 1.5e-7: Abramowitz and Stegun, Handbook of Mathematical
   * Functions, 7.1.26 (coefficients from memory, checked by a test against a reference library).
   */
  static double normal(double z) {
    if (Math.abs(z) > 6) {
      return z > 0 ? 1 : 0;
    }
    double x = Math.abs(z) / StrictMath.sqrt(2);
    double t = 1 / (1 + 0.3275911 * x);
    double series =
        t
            * (0.254829592
                + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
    double tail = series * StrictMath.exp(-x * x) / 2;
    return z > 0 ? 1 - tail : tail;
  }

  /**
   * The same belief with the deviation of one state limited to {@code sd}. Its row and column are
   * scaled, so the correlations stay and the covariance stays positive definite.
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

  /** The same belief with the deviation of one state scaled by a factor. The correlations stay. */
  Gaussian scaled(int state, double factor) {
    double[] next = covariance.clone();
    for (int i = 0; i < size(); i++) {
      next[state * size() + i] *= factor;
      next[i * size() + state] *= factor;
    }
    return new Gaussian(mean, next);
  }

  /** The same belief with the mean of one state shifted. */
  Gaussian shifted(int state, double by) {
    if (by == 0) {
      return this;
    }
    double[] next = mean.clone();
    next[state] += by;
    return new Gaussian(next, covariance);
  }

  /** The same belief, less certain of one state by this standard deviation. */
  Gaussian widened(int state, double sd) {
    double[] next = covariance.clone();
    next[state * (size() + 1)] += sd * sd;
    return new Gaussian(mean, next);
  }

  /** A measurement of the state: z = h(x) + v. */
  interface Sensor {
    double expected(double[] x);

    double[] slope(double[] x);
  }

  /**
   * A corrected belief.
   *
   * @param innovation measurement minus its expectation before the correction
   * @param innovationSd expected standard deviation of that
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
   * Correction by one scalar measurement. It is iterated (Gauss–Newton), as the sensors are
   * non-linear. It is also robust: a measurement far from the belief gets a larger variance, as
   * with a Student-t likelihood of ν degrees of freedom, w = (ν + 1)/(ν + r²/s).
   */
  Correction correct(double z, double variance, double freedom, Sensor sensor) {
    int n = size();
    double innovation = z - sensor.expected(mean);
    double[] slope = sensor.slope(mean);
    double before = dot(slope, times(slope)) + variance;
    double weight = (freedom + 1) / (freedom + innovation * innovation / before);
    double r = variance / Math.min(1, weight);
    double[] x = mean;
    double[] ph = new double[n];
    double s = before;
    for (int iteration = 0; iteration < ITERATIONS; iteration++) {
      slope = sensor.slope(x);
      ph = times(slope);
      s = dot(slope, ph) + r;
      double residual = z - sensor.expected(x);
      for (int i = 0; i < n; i++) {
        residual -= slope[i] * (mean[i] - x[i]);
      }
      double[] next = new double[n];
      for (int i = 0; i < n; i++) {
        next[i] = mean[i] + ph[i] / s * residual;
      }
      x = next;
    }
    return new Correction(new Gaussian(x, updated(ph, s)), innovation, StrictMath.sqrt(before));
  }

  /**
   * P⁺ = P − P h hᵀ P/s. The variances are kept above 0 against rounding. Apart from that, Joseph's
   * form gives the same for one scalar.
   */
  private double[] updated(double[] ph, double s) {
    int n = size();
    double[] p = covariance.clone();
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        p[i * n + j] -= ph[i] * ph[j] / s;
      }
      p[i * n + i] = Math.max(p[i * n + i], 1e-12 * covariance[i * n + i]);
    }
    return p;
  }

  /** Variance of a sensor's expected value. */
  double varianceOf(Sensor sensor) {
    double[] slope = sensor.slope(mean);
    return dot(slope, times(slope));
  }

  /** P h. */
  private double[] times(double[] h) {
    int n = size();
    double[] ph = new double[n];
    for (int j = 0; j < n; j++) {
      if (h[j] != 0) {
        for (int i = 0; i < n; i++) {
          ph[i] += covariance[i * n + j] * h[j];
        }
      }
    }
    return ph;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
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
