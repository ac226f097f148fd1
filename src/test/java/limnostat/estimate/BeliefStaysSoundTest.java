package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.measure.Measurements;
import limnostat.rig.Fixtures;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever water and electrode do for months, the belief is one: finite, positive definite, free
 * chlorine where it can be. Inputs are invented; the seed is named.
 */
@Tag("slow")
class BeliefStaysSoundTest {
  private static final EstimateSettings SETTINGS = Fixtures.SALT_POOL;
  private static final double TARGET_MG_L = 3;
  private static final double STEP_S = 300;
  private static final int STEPS_A_DAY = 288;

  private EstimateState state = Estimator.start(SETTINGS, TARGET_MG_L);
  private Estimate estimate;

  private void step(double orpMv, double ph, double waterC, double givenG, Hour hour) {
    Measurements measured = ModelledPool.measured(orpMv, ph, waterC);
    Estimator.Result result =
        Estimator.step(SETTINGS, state, measured, givenG, TARGET_MG_L, hour, STEP_S);
    state = result.state();
    estimate = result.estimate();
  }

  private void test(double freeChlorineMgL) {
    state = Estimator.test(state, WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL));
  }

  private void requireSound(String when) {
    assertTrue(
        estimate.freeChlorineMgL() >= 0.009 && estimate.freeChlorineMgL() <= 120,
        () -> when + ": " + estimate);
    assertTrue(
        estimate.freeChlorineSdMgL() > 0 && estimate.freeChlorineSdMgL() < 400,
        () -> when + ": " + estimate);
    assertTrue(Double.isFinite(estimate.orpSetpointMv()), when);
    int n = state.belief().size();
    Array2DRowRealMatrix p = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        p.setEntry(i, j, state.belief().covariance()[i * n + j]);
      }
    }
    double[] eigenvalues = new EigenDecompositionSymmetric(p).getEigenvalues();
    assertTrue(eigenvalues[n - 1] > -1e-9 * eigenvalues[0], when + ": not positive definite");
  }

  /** A month without chlorine, then fed and tested again. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void aStarvedPoolIsBorneAndFoundAgain(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < 45 * STEPS_A_DAY; i++) {
      Hour hour = new Hour(2 * random.nextDouble(), 2 * random.nextDouble(), false);
      step(560 + 15 * random.nextGaussian(), 7.4 + 0.3 * random.nextDouble(), 28, 0, hour);
      if (i % (7 * STEPS_A_DAY) == 0) {
        test(0.2 * random.nextDouble());
      }
      if (i % STEPS_A_DAY == 0) {
        requireSound("seed " + seed + ", day " + i / STEPS_A_DAY);
      }
    }
    assertTrue(estimate.freeChlorineMgL() < 1, () -> "" + estimate);
    for (int i = 0; i < 2 * STEPS_A_DAY; i++) {
      step(690 + 3 * random.nextGaussian(), 7.5, 28, i < 12 ? 14 : 0.1, Hour.MEAN);
      if (i == 24 || i == 300) {
        test(3.5);
      }
    }
    assertEquals(3.3, estimate.freeChlorineMgL(), 1, () -> "" + estimate);
  }

  /** Everything at its bounds, in any order. */
  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14, 15, 16})
  void anythingThatPassesTheProbesIsBorne(long seed) {
    Random random = new Random(seed);
    double orpMv = 650;
    double ph = 7.5;
    double waterC = 25;
    double givenG = 0;
    for (int i = 0; i < 60 * STEPS_A_DAY; i++) {
      if (random.nextInt(100) == 0) {
        orpMv = -500 + 1700 * random.nextDouble();
        ph = 4 + 6 * random.nextDouble();
        waterC = 45 * random.nextDouble();
        givenG = random.nextInt(3) == 0 ? 100 * random.nextDouble() : 0;
      }
      Hour hour = new Hour(3 * random.nextDouble(), 3 * random.nextDouble(), random.nextBoolean());
      step(orpMv + random.nextGaussian(), ph, waterC, givenG, hour);
      if (random.nextInt(500) == 0) {
        test(20 * random.nextDouble());
      }
      if (i % STEPS_A_DAY == 0) {
        requireSound("seed " + seed + ", day " + i / STEPS_A_DAY);
      }
    }
  }
}
