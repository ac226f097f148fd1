package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.actuate.Output;
import limnostat.safety.Interlocks.Permission;
import org.junit.jupiter.api.Test;

/** The budget is 5 mg/L here. */
class BlindFeedTest {
  private static final double BUDGET_MG_L = Seen.LIMITS.blindFeedMgL();
  private static final double DAY_S = 86_400;

  private final Seen seen = new Seen();
  private SafetyState state = SafetyState.START;

  private Permission step(double elapsedS) {
    Interlocks.Result result = Interlocks.step(Seen.LIMITS, state, seen.observed(), elapsedS);
    state = result.state();
    return result.permission();
  }

  private double leftMgL() {
    return state.blind().leftMgL(BUDGET_MG_L);
  }

  /** Time enough for the separation and for a day of good ORP. */
  private void settle() {
    step(1000);
    step(DAY_S);
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  private void failed() {
    seen.orpMv = Seen.failed();
    step(10);
    step(10);
    assertTrue(state.blind().blind());
  }

  private boolean active(Cause cause) {
    return state.active().contains(cause);
  }

  @Test
  void beforeAnythingHasConfirmedTheWaterNothingIsFed() {
    seen.orpMv = Seen.failed();
    step(1000);
    assertEquals(0, leftMgL());
    step(10);
    assertTrue(active(Cause.BLIND_FEED_SPENT));
    assertTrue(step(10).held(Output.CHLORINE));
    assertFalse(step(10).held(Output.ACID), "acid does not depend on ORP");
    seen.orpMv = Seen.value(700);
    assertFalse(step(10).held(Output.CHLORINE), "the water is seen");
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  @Test
  void aTestConfirmsTheWaterAsWell() {
    seen.orpMv = Seen.failed();
    step(1000);
    step(10);
    seen.freeChlorineTested = true;
    assertEquals(Effect.LIMIT, step(10).chlorine());
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  @Test
  void whatIsFedWhileOrpIsGoodIsNotFedBlind() {
    settle();
    seen.fedMgL = 1;
    for (int i = 0; i < 100; i++) {
      step(60);
    }
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  /** Half of it is worth a call, all but a twentieth is all. */
  @Test
  void itRunsOutAndHolds() {
    settle();
    failed();
    assertTrue(active(Cause.FEEDING_BLIND));
    seen.fedMgL = 0.01;
    while (state.blind().fedMgL() < BUDGET_MG_L / 2 - 0.011) {
      assertEquals(Effect.LIMIT, step(60).chlorine());
      assertFalse(active(Cause.BLIND_FEED_LOW), () -> "" + state.blind());
    }
    step(60);
    step(60);
    assertTrue(active(Cause.BLIND_FEED_LOW), () -> "" + state.blind());
    while (!active(Cause.BLIND_FEED_SPENT)) {
      step(60);
      assertTrue(state.blind().fedMgL() <= BUDGET_MG_L, () -> "" + state.blind());
    }
    seen.fedMgL = 0;
    assertTrue(step(30 * DAY_S).held(Output.CHLORINE), "time alone gives nothing back");
    seen.freeChlorineTested = true;
    assertEquals(Effect.LIMIT, step(10).chlorine(), "one test gives all of it back");
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  /** Whatever limits chlorine for want of a measurement counts; the cover does not. */
  @Test
  void eachSignalThatChlorineNeedsCounts() {
    for (Cause cause :
        new Cause[] {
          Cause.ORP_FAILURE, Cause.PH_FAILURE, Cause.WATER_FAILURE, Cause.ESTIMATE_LOST
        }) {
      BlindFeedTest each = new BlindFeedTest();
      each.settle();
      switch (cause) {
        case ORP_FAILURE -> each.seen.orpMv = Seen.failed();
        case PH_FAILURE -> each.seen.ph = Seen.failed();
        case WATER_FAILURE -> each.seen.waterC = Seen.failed();
        default -> each.seen.lost = true;
      }
      each.step(10);
      each.seen.fedMgL = 0.5;
      each.step(60);
      assertTrue(each.active(Cause.FEEDING_BLIND), cause.id());
      assertEquals(0.5, each.state.blind().fedMgL(), 1e-9, cause.id());
    }
    settle();
    seen.coverClosed = true;
    seen.fedMgL = 0.5;
    step(60);
    step(60);
    assertEquals(Effect.LIMIT, Interlocks.effect(state.active(), Output.CHLORINE));
    assertFalse(state.blind().blind(), "under a cover ORP measures as well as ever");
    assertEquals(0, state.blind().fedMgL());
  }

  /** ORP that has only fallen measures nothing: what is fed on counts, and a test ends it. */
  @Test
  void anOrpThatIsFallingCounts() {
    settle();
    seen.fedMgL = 0.005;
    double mv = 700;
    while (!active(Cause.ORP_FALLING)) {
      mv -= 0.025;
      seen.orpMv = Seen.value(mv);
      step(60);
      assertTrue(mv > 600, () -> "" + state.watched().response());
    }
    assertEquals(Effect.LIMIT, Interlocks.effect(state.active(), Output.CHLORINE));
    double before = state.blind().fedMgL();
    for (int i = 0; i < 100; i++) {
      step(60);
    }
    assertEquals(before + 0.5, state.blind().fedMgL(), 0.006);
    seen.tested = true;
    seen.freeChlorineTested = true;
    step(60);
    assertFalse(active(Cause.ORP_FALLING));
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  /** Standing water shows nothing: neither is it confirmed by night, nor forgotten. */
  @Test
  void aNightWithoutFlowConfirmsNothing() {
    settle();
    seen.ph = Seen.failed();
    step(10);
    seen.fedMgL = 2;
    step(60);
    double before = state.blind().fedMgL();
    seen.fedMgL = 0;
    seen.flow = false;
    seen.poolWater = false;
    seen.ph = Seen.standing();
    seen.orpMv = Seen.standing();
    seen.waterC = Seen.standing();
    step(DAY_S);
    assertTrue(state.blind().blind());
    assertEquals(before, state.blind().fedMgL());
  }

  /** A value held over is no sign of health. */
  @Test
  void aHeldValueGivesNothingBack() {
    settle();
    failed();
    seen.fedMgL = 2;
    step(60);
    seen.fedMgL = 0;
    double before = state.blind().fedMgL();
    seen.orpMv = Seen.held(700);
    step(30);
    assertEquals(before, state.blind().fedMgL());
  }

  @Test
  void aDayOfGoodOrpGivesItBackInADay() {
    settle();
    failed();
    seen.fedMgL = BUDGET_MG_L;
    step(60);
    seen.fedMgL = 0;
    seen.orpMv = Seen.value(700);
    step(DAY_S / 4);
    assertEquals(BUDGET_MG_L / 4, leftMgL(), 1e-9);
    step(DAY_S / 2);
    assertEquals(3 * BUDGET_MG_L / 4, leftMgL(), 1e-9);
    step(DAY_S);
    assertEquals(BUDGET_MG_L, leftMgL());
  }

  @Test
  void aRestartIsNoWayToGetItBack() {
    settle();
    failed();
    seen.fedMgL = BUDGET_MG_L * 0.96;
    step(60);
    seen.fedMgL = 0;
    for (int i = 0; i < 20; i++) {
      state = state.resumed(RunHealth.Owed.CRASH);
      assertTrue(step(10).active().contains(Cause.BLIND_FEED_SPENT));
    }
  }

  /** What was booked for a process that died may have gone in, so it counts. */
  @Test
  void whatACrashLeavesUnprovenCountsAsFed() {
    settle();
    failed();
    state = state.resumed(RunHealth.Owed.CRASH);
    double before = state.blind().fedMgL();
    seen.unprovenMgL = 0.4;
    step(10);
    assertEquals(before + 0.4, state.blind().fedMgL(), 1e-9);
  }

  /**
   * Failed and good at random: what is fed blind, at the whole ration of each moment, is no more
   * than the budget and what the good time has given back.
   */
  @Test
  void aFlappingProbeCannotStretchIt() {
    for (long seed = 1; seed <= 8; seed++) {
      Random random = new Random(seed);
      BlindFeedTest each = new BlindFeedTest();
      each.settle();
      double goodShare = random.nextDouble() * random.nextDouble();
      double goodS = 0;
      double blindMgL = 0;
      for (int i = 0; i < 10_000; i++) {
        boolean good = random.nextDouble() < goodShare;
        each.seen.orpMv = good ? Seen.value(700) : Seen.failed();
        boolean blindBefore = each.state.blind().blind();
        boolean mayFeed = Interlocks.effect(each.state.active(), Output.CHLORINE) != Effect.INHIBIT;
        each.seen.fedMgL = mayFeed && blindBefore ? each.leftMgL() / 2.5 / DAY_S * 60 : 0;
        blindMgL += each.seen.fedMgL;
        each.step(60);
        goodS += good ? 60 : 0;
        assertTrue(
            blindMgL <= BUDGET_MG_L * (1 + goodS / DAY_S) + 1e-9,
            "seed " + seed + ", scan " + i + ": " + blindMgL + " mg/L, " + goodS + " s good");
      }
    }
  }

  @Test
  void aStateThatIsNoneIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new BlindFeed(true, -1));
    assertThrows(IllegalArgumentException.class, () -> new BlindFeed(true, Double.NaN));
  }

  /** A pool at its high limit that uses nothing stays below what a bathing code lets it reach. */
  @Test
  void theDefaultLeavesThePoolBelowTheBathingCodesLimit() {
    for (double highMgL = 3; highMgL <= 9; highMgL += 0.5) {
      double budgetMgL = SafetyLimits.blindFeedMgL(highMgL);
      assertTrue(highMgL + budgetMgL <= HardBounds.FREE_CHLORINE_HIGH_MG_L, highMgL + " mg/L");
    }
    assertEquals(1, SafetyLimits.blindFeedMgL(10), "a pool without a test is not left at once");
  }
}
