package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class BeliefTest {
  private static final Belief START = new Belief(3, 0.7, 0, 2.25, 0, 0, 0.3, 0, 1600);

  /** A matrix is positive definite if all its leading minors are positive (Sylvester). */
  private static void assertPositiveDefinite(Belief b, String when) {
    double second = b.ff() * b.kk() - b.fk() * b.fk();
    double third =
        b.ff() * (b.kk() * b.oo() - b.ko() * b.ko())
            - b.fk() * (b.fk() * b.oo() - b.ko() * b.fo())
            + b.fo() * (b.fk() * b.ko() - b.kk() * b.fo());
    assertTrue(
        b.ff() > 0 && second > 0 && third > 0,
        () -> when + ": minors " + b.ff() + ", " + second + ", " + third + " of " + b);
  }

  /** A year of 10 min steps: electrode corrections, now and then a test, gaps of days, outliers. */
  @Test
  void covarianceStaysPositiveDefiniteOverAYear() {
    for (int seed = 1; seed <= 5; seed++) {
      Random random = new Random(seed);
      Belief belief = START;
      for (int i = 0; i < 365 * 144; i++) {
        double days = random.nextInt(2000) == 0 ? 10 * random.nextDouble() : 1.0 / 144;
        double rise = random.nextInt(3) == 0 ? 0.3 * random.nextDouble() : 0;
        belief = belief.predict(rise, 2.5 * random.nextDouble(), days);
        String when = "seed " + seed + ", step " + i;
        assertPositiveDefinite(belief, when + ", predicted");
        if (random.nextInt(4) > 0) {
          double slope = 50 / 2.303 / belief.freeChlorineMgL() * random.nextDouble();
          double difference =
              random.nextInt(100) == 0 ? 1e4 * random.nextGaussian() : 15 * random.nextGaussian();
          belief = belief.correct(difference, slope, 1, 100, 3).belief();
          assertPositiveDefinite(belief, when + ", corrected");
        }
        if (random.nextInt(1000) == 0) {
          belief = belief.correct(random.nextGaussian(), 1, 0, 0.04, 3).belief();
          assertPositiveDefinite(belief, when + ", tested");
        }
        assertTrue(belief.freeChlorineMgL() > 0 && belief.freeChlorineMgL() < 1e3, when);
      }
    }
  }

  /** Huber: beyond three standard deviations the size of the surprise does not matter any more. */
  @Test
  void oneWrongValueMovesTheMeanByABoundedAmount() {
    Belief.Correction far = START.correct(1e9, 20, 1, 100, 3);
    double sd = far.innovationSd();
    assertEquals(Math.sqrt(400 * 2.25 + 1600 + 100), sd, 1e-9, "S = h P hᵀ + R by hand");
    assertEquals(1e9, far.innovation(), "people see the true difference");
    Belief atBound = START.correct(3 * sd, 20, 1, 100, 3).belief();
    assertEquals(atBound, far.belief());
    Belief within = START.correct(2.9 * sd, 20, 1, 100, 3).belief();
    assertTrue(within.freeChlorineMgL() < atBound.freeChlorineMgL());
    Belief below = START.correct(-1e9, 0, 1, 100, 3).belief();
    assertEquals(-START.correct(1e9, 0, 1, 100, 3).belief().offsetMv(), below.offsetMv(), 1e-9);
  }

  @Test
  void freeChlorineAndLossStayPositive() {
    Belief belief = START;
    for (int i = 0; i < 50; i++) {
      belief = belief.predict(0, 1, 0.1).correct(-1e6, 20, 0, 1, 3).belief();
    }
    assertTrue(belief.freeChlorineMgL() >= Belief.FREE_CHLORINE_FLOOR_MG_L);
    assertTrue(belief.lossPerDay() >= Belief.LOSS_FLOOR);
  }

  @Test
  void withoutLossADoseAddsExactlyItsRise() {
    assertEquals(3.25, START.predict(0.25, 0, 1).freeChlorineMgL());
    assertEquals(3.25, START.predict(0.25, 2, 0).freeChlorineMgL());
  }

  /** dF/dt = −k s F has one solution, however its time is cut up: F e^(−k s t). */
  @Test
  void lossDoesNotDependOnTheScanPeriod() {
    Belief whole = START.predict(0, 1.5, 1);
    assertEquals(3 * Math.exp(-0.7 * 1.5), whole.freeChlorineMgL(), 1e-12);
    Belief cut = START;
    for (int i = 0; i < 86_400; i++) {
      cut = cut.predict(0, 1.5, 1.0 / 86_400);
    }
    assertEquals(whole.freeChlorineMgL(), cut.freeChlorineMgL(), 1e-9);
    assertEquals(whole.kk(), cut.kk(), 1e-9);
    assertEquals(whole.oo(), cut.oo(), 1e-6);
  }

  /** The derivative by k that the covariance goes by, against a difference quotient. */
  @Test
  void covarianceFollowsTheModelsDerivative() {
    double dk = 1e-6;
    Belief more = new Belief(3, 0.7 + dk, 0, 2.25, 0, 0, 0.3, 0, 1600);
    double slope =
        (more.predict(0, 1.5, 0.5).freeChlorineMgL() - START.predict(0, 1.5, 0.5).freeChlorineMgL())
            / dk;
    assertEquals(slope * 0.3, START.predict(0, 1.5, 0.5).fk(), 1e-5);
  }

  @Test
  void aLongOutageIsBorne() {
    Belief belief = START.predict(0, 1, 10_000);
    assertPositiveDefinite(belief, "after 10000 days");
    assertPositiveDefinite(belief.correct(10, 100, 1, 100, 3).belief(), "and a correction");
  }

  @Test
  void whatIsNoBeliefIsRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> new Belief(3, 1, 0, Double.NaN, 0, 0, 1, 0, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Belief(3, 1, 0, 1, 0, 0, 1, 0, Double.POSITIVE_INFINITY));
    assertThrows(IllegalArgumentException.class, () -> new Belief(3, 1, 0, -1, 0, 0, 1, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> new Belief(-3, 1, 0, 1, 0, 0, 1, 0, 1));
  }
}
