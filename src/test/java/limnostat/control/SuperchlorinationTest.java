package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.estimate.Estimate;
import limnostat.estimate.Estimates;
import limnostat.estimate.Outlook;
import org.junit.jupiter.api.Test;

class SuperchlorinationTest {
  private static Estimate estimate(double freeChlorineMgL, double sdMgL) {
    return Estimates.of(new Outlook(freeChlorineMgL, 0.2, 0.5, 0, 0.3, 0, 1), sdMgL, 2, 700);
  }

  private static final Estimate HIGH = estimate(8, 0.5);
  private static final Estimate LOW = estimate(2, 0.5);

  @Test
  void noneStaysNone() {
    assertEquals(Superchlorination.NONE, Superchlorination.NONE.step(HIGH, 1e6));
  }

  @Test
  void itRunsForItsTimeWhateverTheLevel() {
    Superchlorination raise = Superchlorination.begin(8, 3600);
    assertTrue(raise.running());
    assertTrue(raise.reentry());
    for (int s = 60; s < 3600; s += 60) {
      raise = raise.step(HIGH, 60);
      assertTrue(raise.running(), s + " s");
    }
    raise = raise.step(HIGH, 60);
    assertFalse(raise.running());
    assertTrue(raise.reentry());
  }

  @Test
  void aGapLongerThanTheTimeEndsItAndTheHoldBegins() {
    Superchlorination raise = Superchlorination.begin(8, 3600).step(LOW, 1e6);
    assertFalse(raise.running());
    assertTrue(raise.reentry(), "no re-entry by an outage alone");
    assertEquals(0, raise.sinceEndS());
  }

  /** 6 h [practice] and 4 mg/L, a label limit [memory]; either alone is not enough. */
  @Test
  void reentryWantsBothTimeAndLevel() {
    Superchlorination ended = Superchlorination.begin(8, 60).stop();
    assertTrue(ended.step(LOW, 6 * 3600 - 1).reentry(), "low, but too early");
    Superchlorination late = ended.step(HIGH, 48 * 3600);
    assertTrue(late.reentry(), "late, but too high");
    assertEquals(Superchlorination.NONE, late.step(LOW, 1));
    assertEquals(Superchlorination.NONE, ended.step(LOW, 6 * 3600));
  }

  @Test
  void theLevelMustBeLikelyBelowNotJustOnAverage() {
    Superchlorination late = Superchlorination.begin(8, 60).stop().step(HIGH, 48 * 3600);
    assertTrue(late.step(estimate(3.9, 0.2), 1).reentry());
    assertFalse(late.step(estimate(3.5, 0.5), 1).reentry());
  }

  @Test
  void anotherRaiseBeginsTheHoldAnew() {
    Superchlorination late = Superchlorination.begin(8, 60).stop().step(LOW, 5 * 3600);
    Superchlorination again = Superchlorination.begin(6, 60).step(HIGH, 60);
    assertTrue(late.sinceEndS() > 0);
    assertEquals(0, again.sinceEndS());
    assertTrue(again.step(LOW, 3600).reentry());
  }
}
