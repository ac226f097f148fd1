package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.water.ChlorineForm;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.junit.jupiter.api.Test;

class GaussianTest {
  private static final EstimateSettings POOL =
      new EstimateSettings(50, 46, 8, SlowSettings.told(30, 3400, ChlorineForm.SALT_CELL, 1), 2, 3);

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

  /** The covariance stays positive definite over a year of scans and of readings of every kind. */
  @Test
  void theCovarianceStaysPositiveDefiniteForAYear() {
    Random random = new Random(17);
    Gaussian belief = Estimator.start(POOL, 3).belief();
    for (int i = 0; i < 365 * 24; i++) {
      double sun = Math.max(0, Math.sin(i % 24 / 24.0 * 2 * Math.PI)) * 2;
      belief = PoolModel.predict(belief, random.nextInt(3) == 0 ? 0.3 : 0, sun, 26, 1 / 24.0);
      if (random.nextInt(3) > 0) {
        double mv =
            random.nextInt(50) == 0
                ? 100 + 900 * random.nextDouble()
                : 690 + random.nextGaussian() * 10;
        belief = belief.correct(mv, 100, 4, new PoolModel.OrpSensor(30, 7.4, 26)).belief();
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

  private static void assertPositiveDefinite(Gaussian belief, int hour) {
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
