package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.estimate.Estimate;
import limnostat.estimate.Estimates;
import limnostat.estimate.Outlook;
import limnostat.estimate.Residual;
import org.junit.jupiter.api.Test;

class DoubtTest {
  private static final Outlook OUTLOOK = new Outlook(3, 0.2, 0.5, 0, 0.3, 0, 1);
  private static final Estimate SURE = Estimates.of(OUTLOOK, 0.3, 2, 700);
  private static final Plan FED = new Plan(0.4, 0.4, 0, 0);

  private static final double RISE_MG_L_H = 0.4;
  private static final double BUDGET_MG_L = 5;

  private Doubt doubt = Doubt.NONE;

  private void pass(Estimate estimate, Plan plan, double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      double fedDuty = Math.max(plan.duty(), least(plan));
      double givenMgL = fedDuty * RISE_MG_L_H * 10 / 3600;
      doubt = doubt.step(estimate, plan, givenMgL, RISE_MG_L_H, BUDGET_MG_L, 10);
    }
  }

  private double least(Plan plan) {
    return doubt.leastDuty(plan, BUDGET_MG_L, RISE_MG_L_H);
  }

  private static Estimate gone(double gone, double byBalance) {
    return Estimates.with(SURE, new Residual(0.1, gone, byBalance, 4, SURE.residual().levels()));
  }

  @Test
  void whatIsSureAndFedIsNoDoubt() {
    pass(SURE, FED, 5 * 86_400);
    assertEquals(Doubt.NONE, doubt);
    assertEquals(0, least(FED));
  }

  @Test
  void aDayOfHardlyKnowingIsLong() {
    Estimate unsure = Estimates.of(OUTLOOK, 3, 2, 700);
    pass(unsure, FED, 86_390);
    assertFalse(doubt.longUnsure());
    pass(unsure, FED, 10);
    assertTrue(doubt.longUnsure());
    pass(SURE, FED, 60);
    assertFalse(doubt.longUnsure());
  }

  /** Either word is enough: the filter's with ORP in it, and that of doses and tests alone. */
  @Test
  void aDayAtOddsOfOneInFiveThatItIsGoneIsLong() {
    for (Estimate estimate : new Estimate[] {gone(0.21, 0), gone(0, 0.21)}) {
      doubt = Doubt.NONE;
      pass(estimate, FED, 86_390);
      assertFalse(doubt.longGone());
      pass(estimate, FED, 10);
      assertTrue(doubt.longGone());
      assertFalse(doubt.longUnsure());
    }
    doubt = Doubt.NONE;
    pass(gone(0.19, 0.19), FED, 3 * 86_400);
    assertFalse(doubt.longGone());
  }

  /** What comes and goes cannot put it off for ever: the time drains slower than it fills. */
  @Test
  void aDoubtThatComesAndGoesIsToldAllTheSame() {
    for (int day = 0; day < 3; day++) {
      pass(gone(0.5, 0), FED, 86_400 / 2);
      pass(gone(0.1, 0), FED, 86_400 / 2);
    }
    pass(gone(0.5, 0), FED, 86_400 / 4);
    assertTrue(doubt.longGone(), doubt::toString);
  }

  /** It is one word against the other, and the water may have more than enough. */
  @Test
  void whatIsFedAgainstTheElectrodesWordHasTheBlindBudget() {
    Plan none = new Plan(0, 0.9, 0, 0);
    pass(SURE, none, 86_400);
    assertEquals(0.45, least(none), 1e-12);
    double fedMgL = 0;
    for (int hour = 0; hour < 30 * 24; hour++) {
      fedMgL += least(none) * RISE_MG_L_H;
      pass(SURE, none, 3600);
    }
    assertTrue(fedMgL > 0.9 * BUDGET_MG_L && fedMgL < 1.1 * BUDGET_MG_L, fedMgL + " mg/L");
    assertTrue(doubt.longStarved(), "it calls all the while");
  }

  /** No electrode's word alone takes the feed below half of what doses and tests call for. */
  @Test
  void aDayOfLessThanHalfOfWhatDosesAndTestsCallForIsStarved() {
    Plan little = new Plan(0.19, 0.4, 0, 0);
    pass(SURE, new Plan(0.2, 0.4, 0, 0), 3 * 86_400);
    assertFalse(doubt.longStarved(), "half is no less than half");
    pass(SURE, little, 86_390);
    assertFalse(doubt.longStarved());
    assertEquals(0, least(little), "for a day it may");
    pass(SURE, little, 10);
    assertTrue(doubt.longStarved());
    assertEquals(0.2, least(little), 1e-12);
    pass(SURE, FED, 60);
    assertFalse(doubt.longStarved());
  }

  /** Where doses and tests call for nothing, nothing is starved. */
  @Test
  void noFeedWhereNoneIsCalledForIsNotStarved() {
    pass(SURE, new Plan(0, 0, 0, 0), 3 * 86_400);
    assertFalse(doubt.longStarved());
  }

  /** Nobody looked during an outage: it counts as one scan. */
  @Test
  void anOutageIsNoTime() {
    doubt = doubt.step(gone(0.9, 0.9), FED, 0, RISE_MG_L_H, BUDGET_MG_L, 1e6);
    assertFalse(doubt.longGone());
  }
}
