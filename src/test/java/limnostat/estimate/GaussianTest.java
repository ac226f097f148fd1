package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import limnostat.rig.Fixtures;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.special.Erf;
import org.junit.jupiter.api.Test;

class GaussianTest {
  private static final Electrode.Trust TRUST = Electrode.Trust.ORDINARY;
  private static final Electrode ELECTRODE = new Electrode(47, TRUST);
  private static final EstimateSettings POOL = Fixtures.saltPool(3);

  /**
   * A linear sensor: the iterated filter is then Kalman's, which the library's textbook form gives
   * by hand.
   */
  @Test
  void aLinearMeasurementIsKalmans() {
    Gaussian prior = new Gaussian(new double[] {1, 2}, new double[] {4, 1, 1, 2});
    Gaussian.Sensor first =
        new Gaussian.Sensor() {
          @Override
          public double expected(double[] x) {
            return x[0];
          }

          @Override
          public double[] slope(double[] x) {
            return new double[] {1, 0};
          }
        };
    // S = 4 + 1, K = (4, 1)/5; with very many degrees of freedom the likelihood is Gauss's.
    Gaussian.Correction c = prior.correct(2, 1, 1e12, first);
    assertEquals(1 + 0.8, c.belief().mean()[0], 1e-9);
    assertEquals(2 + 0.2, c.belief().mean()[1], 1e-9);
    assertEquals(0.8, c.belief().variance(0), 1e-9);
    assertEquals(2 - 0.2, c.belief().variance(1), 1e-9);
    assertEquals(Math.sqrt(5), c.innovationSd(), 1e-9);
    // Far off, a Student-t likelihood of few degrees of freedom hardly moves.
    double moved = prior.correct(1001, 1, 3, first).belief().mean()[0] - 1;
    assertTrue(moved < 100, "moved by " + moved);
  }

  /** h(x) = a·x + c (b·x)², a curve as mild as that of the sensors. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Curved(double[] a, double[] b, double c) implements Gaussian.Sensor {
    private static double dot(double[] one, double[] other) {
      return new ArrayRealVector(one).dotProduct(new ArrayRealVector(other));
    }

    @Override
    public double expected(double[] x) {
      return dot(a, x) + c * dot(b, x) * dot(b, x);
    }

    @Override
    public double[] slope(double[] x) {
      return new ArrayRealVector(a)
          .add(new ArrayRealVector(b).mapMultiply(2 * c * dot(b, x)))
          .toArray();
    }
  }

  /**
   * Gauss–Newton in the library's matrices until it stands still, then Joseph's form: x = m + K (z
   * − h(x) − H (m − x)), K = P Hᵀ/(H P Hᵀ + r), P⁺ = (I − K H) P (I − K H)ᵀ + K r Kᵀ.
   */
  private static Gaussian reference(
      double[] m, RealMatrix p, double z, double r, Gaussian.Sensor sensor) {
    RealVector mean = new ArrayRealVector(m);
    RealVector x = mean;
    RealVector gain = mean;
    RealVector h = mean;
    for (int i = 0; i < 100; i++) {
      h = new ArrayRealVector(sensor.slope(x.toArray()));
      RealVector ph = p.operate(h);
      gain = ph.mapDivide(h.dotProduct(ph) + r);
      double residual = z - sensor.expected(x.toArray()) - h.dotProduct(mean.subtract(x));
      x = mean.add(gain.mapMultiply(residual));
    }
    RealMatrix keeps =
        MatrixUtils.createRealIdentityMatrix(m.length).subtract(gain.outerProduct(h));
    RealMatrix joseph =
        keeps.multiply(p).multiplyTransposed(keeps).add(gain.outerProduct(gain).scalarMultiply(r));
    return new Gaussian(x.toArray(), flat(joseph));
  }

  /** Straight and curved sensors, Gauss's and Student's likelihoods, near and far. */
  @Test
  void aCorrectionIsTheLibrarysInJosephsForm() {
    Random random = new Random(7);
    for (int trial = 0; trial < 300; trial++) {
      int n = 1 + random.nextInt(12);
      RealMatrix root = random(n, random);
      RealMatrix p =
          root.multiplyTransposed(root)
              .add(MatrixUtils.createRealIdentityMatrix(n).scalarMultiply(0.1));
      double[] mean = random(n, random).getRow(0);
      Gaussian.Sensor sensor =
          new Curved(
              random(n, random).getRow(0),
              random(n, random).getRow(0),
              trial % 3 == 0 ? 0 : 0.0003 * random.nextGaussian());
      double variance = 0.05 + random.nextDouble();
      double freedom = trial % 2 == 0 ? 1e12 : 1 + 5 * random.nextDouble();
      double z = sensor.expected(mean) + 3 * random.nextGaussian();
      RealVector slope = new ArrayRealVector(sensor.slope(mean));
      double before = slope.dotProduct(p.operate(slope)) + variance;
      double innovation = z - sensor.expected(mean);
      double weight = (freedom + 1) / (freedom + innovation * innovation / before);
      Gaussian expected = reference(mean, p, z, variance / Math.min(1, weight), sensor);
      Gaussian.Correction c = new Gaussian(mean, flat(p)).correct(z, variance, freedom, sensor);
      assertEquals(innovation, c.innovation(), 1e-9, "trial " + trial);
      assertEquals(Math.sqrt(before), c.innovationSd(), 1e-9, "trial " + trial);
      assertArrayEquals(expected.mean(), c.belief().mean(), 2e-4, "trial " + trial);
      assertArrayEquals(expected.covariance(), c.belief().covariance(), 2e-4, "trial " + trial);
      if (trial % 3 == 0) {
        assertArrayEquals(expected.mean(), c.belief().mean(), 1e-9, "straight, trial " + trial);
        assertArrayEquals(
            expected.covariance(), c.belief().covariance(), 1e-9, "straight, trial " + trial);
      }
    }
  }

  /** Φ(z) = erfc(−z/√2)/2, by the library. */
  @Test
  void theNormalDistributionIsTheLibrarys() {
    for (double z = -9; z <= 9; z += 0.001) {
      assertEquals(Erf.erfc(-z / Math.sqrt(2)) / 2, Gaussian.normal(z), 1.5e-7, "z " + z);
    }
  }

  /** P⁺ = A P Aᵀ + Q, by the library's matrices. */
  @Test
  void aPredictionIsKalmans() {
    Random random = new Random(5);
    for (int n = 1; n <= 6; n++) {
      RealMatrix a = random(n, random);
      RealMatrix root = random(n, random);
      RealMatrix p = root.multiplyTransposed(root);
      double[] q = random(n, random).getRow(0);
      for (int i = 0; i < n; i++) {
        q[i] *= q[i];
      }
      double[] next = random(n, random).getRow(0);
      Gaussian predicted = new Gaussian(new double[n], flat(p)).predict(next, flat(a), q);
      RealMatrix expected =
          a.multiply(p).multiply(a.transpose()).add(MatrixUtils.createRealDiagonalMatrix(q));
      assertArrayEquals(flat(expected), predicted.covariance(), 1e-12, n + " states");
      assertArrayEquals(next, predicted.mean());
    }
  }

  private static RealMatrix random(int n, Random random) {
    RealMatrix m = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        m.setEntry(i, j, random.nextInt(4) == 0 ? 0 : random.nextGaussian());
      }
    }
    return m;
  }

  private static double[] flat(RealMatrix m) {
    return Arrays.stream(m.getData()).flatMapToDouble(Arrays::stream).toArray();
  }

  /**
   * The Jacobian of the pool's model against differences: where the covariance of one state alone
   * goes is the square of its column.
   */
  @Test
  void theJacobianIsThatOfTheModel() {
    Hour hour = new Hour(1.7, 1.3);
    double[] mean = Estimator.start(POOL, 3).belief().mean();
    mean[PoolModel.LN_GAIN] = 0.2;
    mean[PoolModel.LN_CLOUD] = -0.2;
    mean[PoolModel.WANDER] = 0.5;
    int n = mean.length;
    double days = 0.1;
    Gaussian none = new Gaussian(mean, new double[n * n]);
    double[] noise = PoolModel.predict(none, TRUST, 0.5, hour, 27, days).covariance();
    for (int i = 0; i < n; i++) {
      // Small, as deviations are bounded.
      double variance = 0.01;
      double[] one = new double[n * n];
      one[i * n + i] = variance;
      double[] p =
          PoolModel.predict(new Gaussian(mean, one), TRUST, 0.5, hour, 27, days).covariance();
      double h = 1e-5;
      double[] up = PoolModel.predict(none.shifted(i, h), TRUST, 0.5, hour, 27, days).mean();
      double[] down = PoolModel.predict(none.shifted(i, -h), TRUST, 0.5, hour, 27, days).mean();
      for (int j = 0; j < n; j++) {
        double slope = (up[j] - down[j]) / (2 * h);
        double square = (p[j * n + j] - noise[j * n + j]) / variance;
        assertEquals(slope * slope, square, 1e-3, "d" + j + "/d" + i);
      }
    }
  }

  /** Where a sensor tells of the clouds the sun's own deviation is pulled in: 0.3 to 0.1. */
  @Test
  void aMeasuredSunDeviatesLess() {
    Gaussian usual = Estimator.start(POOL, 3).belief();
    Gaussian measured = usual;
    for (int i = 0; i < 24 * 20; i++) {
      Hour hour = Hour.of(POOL, 1_782_864_000 + 3600.0 * i);
      usual = PoolModel.predict(usual, TRUST, 0.05, hour, 26, 1 / 24.0);
      measured =
          PoolModel.predict(measured, TRUST, 0.05, hour.withSun(hour.sun(), true), 26, 1 / 24.0);
    }
    assertEquals(0.3, Math.sqrt(usual.variance(PoolModel.LN_CLOUD)), 1e-6);
    assertEquals(0.1, Math.sqrt(measured.variance(PoolModel.LN_CLOUD)), 1e-6);
  }

  /** The covariance stays positive definite over a year of scans and of readings of every kind. */
  @Test
  void theCovarianceStaysPositiveDefiniteForAYear() {
    Random random = new Random(17);
    Gaussian belief = Estimator.start(POOL, 3).belief();
    for (int i = 0; i < 365 * 24; i++) {
      Hour hour = Hour.of(POOL, 1_782_864_000 + 3600.0 * i);
      belief =
          PoolModel.predict(belief, TRUST, random.nextInt(3) == 0 ? 0.3 : 0, hour, 26, 1 / 24.0);
      if (random.nextInt(3) > 0) {
        double mv =
            random.nextInt(50) == 0
                ? 100 + 900 * random.nextDouble()
                : 690 + random.nextGaussian() * 10;
        belief =
            belief.correct(mv, 100, 4, new PoolModel.OrpSensor(ELECTRODE, 30, 7.4, 26)).belief();
      }
      if (random.nextInt(168) == 0) {
        belief =
            belief.correct(10 * random.nextDouble(), 0.1, 6, new PoolModel.KitSensor()).belief();
      }
      if (i % 50 == 0) {
        assertPositiveDefinite(belief, i);
      }
    }
  }

  static void assertPositiveDefinite(Gaussian belief, int hour) {
    int n = belief.size();
    double[][] p = new double[n][n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      sd[i] = Math.sqrt(belief.variance(i));
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        p[i][j] = belief.covariance()[i * n + j] / sd[i] / sd[j];
      }
    }
    double least =
        new EigenDecompositionSymmetric(new Array2DRowRealMatrix(p)).getEigenvalue(n - 1);
    assertTrue(least > 0, "hour " + hour + ", least eigenvalue of the correlations " + least);
  }

  @Test
  void whatIsNotFiniteOrNegativeIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new Gaussian(new double[] {Double.NaN}, new double[] {1}));
    assertThrows(
        IllegalArgumentException.class, () -> new Gaussian(new double[] {0}, new double[] {-1}));
    assertThrows(
        IllegalArgumentException.class, () -> new Gaussian(new double[] {0}, new double[] {1, 0}));
  }
}
