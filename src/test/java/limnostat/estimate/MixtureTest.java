package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Tag("slow")
class MixtureTest {
  private static final int DAY = 288; // steps of five minutes
  private static final int DAYS = 60;

  private static Mixture.Hypothesis hypothesis(double slopeMv, double mean, double logWeight) {
    return new Mixture.Hypothesis(
        slopeMv, new Gaussian(new double[] {mean, 1}, new double[] {1, 0.5, 0.5, 2}), logWeight);
  }

  /** By hand: weights 1/4 and 3/4 of means 1 and 5, variance 1 each: 4, and 1 + 3/16 × 4². */
  @Test
  void togetherIsTheMeanAndTheCovarianceOfAll() {
    Mixture mixture =
        new Mixture(List.of(hypothesis(30, 1, 7), hypothesis(60, 5, 7 + Math.log(3))));
    assertArrayEquals(new double[] {0.25, 0.75}, mixture.weights(), 1e-12);
    Gaussian together = mixture.together();
    assertArrayEquals(new double[] {4, 1}, together.mean(), 1e-12);
    assertArrayEquals(new double[] {4, 0.5, 0.5, 2}, together.covariance(), 1e-12);
  }

  /** The better of two that foresaw differently gains; with time all goes back to the start. */
  @Test
  void weightsFollowWhatWasForeseenAndForget() {
    Gaussian.Sensor first = new First();
    Mixture start = new Mixture(List.of(hypothesis(47, 1, 0), hypothesis(47, 5, 0)));
    Mixture.Correction told = start.corrected(5, 1, 1e9, h -> first);
    // Expected 3, so 2 off; variance of the mixture 1 + 1 + 2².
    assertEquals(2, told.innovation(), 1e-9);
    assertEquals(Math.sqrt(6), told.innovationSd(), 1e-9);
    // Gauss's likelihoods, tempered to their roots: exp(−4²/(2 × 2)/2) against 1.
    double[] weight = told.mixture().weights();
    assertEquals(Math.exp(-2), weight[0] / weight[1], 1e-6);
    double before = weight[1];
    Mixture later = told.mixture().predicted(b -> b, 40);
    assertEquals(Math.exp(-2 / Math.E), later.weights()[0] / later.weights()[1], 1e-6);
    assertTrue(later.weights()[1] < before);
  }

  private record First() implements Gaussian.Sensor {
    @Override
    public double expected(double[] x) {
      return x[0];
    }

    @Override
    public double[] slope(double[] x) {
      return new double[] {1, 0};
    }
  }

  @Test
  void whatIsNoMixtureIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Mixture(List.of()));
    assertThrows(IllegalArgumentException.class, () -> hypothesis(0, 1, 0));
    assertThrows(IllegalArgumentException.class, () -> hypothesis(Double.NaN, 1, 0));
    assertThrows(IllegalArgumentException.class, () -> hypothesis(47, 1, Double.NaN));
    Mixture.Hypothesis smaller =
        new Mixture.Hypothesis(47, new Gaussian(new double[] {1}, new double[] {1}), 0);
    assertThrows(
        IllegalArgumentException.class, () -> new Mixture(List.of(hypothesis(47, 1, 0), smaller)));
  }

  /** A year of scans, with readings and tests of every kind. */
  @Test
  void everyCovarianceStaysPositiveDefiniteForAYear() {
    Random random = new Random(23);
    Mixture mixture = Estimator.start(ModelledPool.POOL, 3).mixture();
    for (int i = 0; i < 365 * 24; i++) {
      Hour hour = Hour.of(ModelledPool.POOL, 1_782_864_000 + 3600.0 * i);
      double rise = random.nextInt(3) == 0 ? 0.3 : 0;
      mixture = mixture.predicted(b -> PoolModel.predict(b, rise, hour, 26, 1 / 24.0), 1 / 24.0);
      if (random.nextInt(3) > 0) {
        boolean wild = random.nextInt(50) == 0;
        double mv = wild ? 100 + 900 * random.nextDouble() : 690 + random.nextGaussian() * 10;
        mixture =
            mixture
                .corrected(mv, 64, 4, h -> new PoolModel.OrpSensor(h.slopeMv(), 30, 7.4, 26))
                .mixture();
      }
      if (random.nextInt(168) == 0) {
        mixture =
            mixture
                .corrected(10 * random.nextDouble(), 0.1, 6, h -> new PoolModel.KitSensor())
                .mixture();
      }
      assertEquals(1, Arrays.stream(mixture.weights()).sum(), 1e-12, "hour " + i);
      if (i % 100 == 0) {
        for (Mixture.Hypothesis h : mixture.hypotheses()) {
          GaussianTest.assertPositiveDefinite(h.belief(), i);
        }
        GaussianTest.assertPositiveDefinite(mixture.together(), i);
      }
    }
  }

  /**
   * Slopes at either end of what is supposed, and truths drawn from what is believed at the start:
   * with weekly tests free chlorine lies within 2 sd for 90 % of 60 days (95 % were a Gaussian's).
   * Errors last for days, so that one pool alone may have less.
   */
  @ParameterizedTest
  @ValueSource(doubles = {30, 75})
  void whateverTheSlopeTheTruthLiesWithinTwoDeviations(double slopeMv) {
    int pools = 10;
    double sum = 0;
    for (long seed = 1; seed <= pools; seed++) {
      ModelledPool pool = new ModelledPool(seed, slopeMv, 0);
      int within = 0;
      for (int i = 0; i < DAYS * DAY; i++) {
        step(pool, i);
        double off = Math.abs(pool.estimate().freeChlorineMgL() - pool.freeChlorineMgL());
        within += off <= 2 * pool.estimate().freeChlorineSdMgL() ? 1 : 0;
      }
      double share = within / (double) (DAYS * DAY);
      assertTrue(share >= 0.8, "slope " + slopeMv + " mV, seed " + seed + ": within " + share);
      sum += share;
    }
    assertTrue(sum / pools >= 0.9, "slope " + slopeMv + " mV: within " + sum / pools);
  }

  /**
   * The same pool with an electrode that drifts by 1 mV a day and with one that stays: the filter
   * begins without a drift, so that it errs by some of it, and has learned it after a month. By the
   * mean of a day.
   */
  @ParameterizedTest
  @ValueSource(doubles = {-1, 1})
  void anElectrodeThatDriftsDoesNotCarryTheEstimateAway(double driftMvDay) {
    for (long seed = 1; seed <= 10; seed++) {
      ModelledPool drifts = new ModelledPool(seed, 47, driftMvDay);
      ModelledPool stays = new ModelledPool(seed, 47, 0);
      for (int day = 0; day < DAYS; day++) {
        double carried = dayOverTruth(drifts, day) / dayOverTruth(stays, day) - 1;
        assertTrue(
            Math.abs(carried) < (day < DAYS / 2 ? 0.25 : 0.1),
            "drift " + driftMvDay + ", seed " + seed + ", day " + day + ": by " + carried);
      }
    }
  }

  /** Estimate over truth on the mean of a day. */
  private static double dayOverTruth(ModelledPool pool, int day) {
    double sum = 0;
    for (int i = 0; i < DAY; i++) {
      step(pool, day * DAY + i);
      sum += pool.estimate().freeChlorineMgL() / pool.freeChlorineMgL();
    }
    return sum / DAY;
  }

  /** Five minutes, and a test once a week at noon. */
  private static void step(ModelledPool pool, int number) {
    pool.step(number);
    if (number % (7 * DAY) == DAY / 2) {
      pool.test();
    }
  }
}
