package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Estimate;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Estimates;
import limnostat.estimate.Outlook;
import limnostat.estimate.SunOnWater;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.measure.Plausibility;
import limnostat.measure.Status;
import limnostat.rig.Fixtures;
import org.junit.jupiter.api.Test;

/** The learned demand is half of the time: 2 mg/L a day in 50 m³ by 20 g/h in ten hours of pump. */
class ControlTest {
  private static final double LEARNED = 0.5;

  /** More than is ever rationed here: 2 mg/L a day for two days and a half are 5 mg/L. */
  private static final double AMPLE_MG_L = 6;

  private static final double BLIND_BUDGET_MG_L = 5;
  private static final double SETPOINT_MV = 700;
  private static final EstimateSettings POOL = Fixtures.saltPool(3);
  private static final Feed FEED = new Feed(20, 20, 160);

  private static final ControlSettings SETTINGS =
      new ControlSettings(3, 7.4, ZoneOffset.UTC, List.of(new PumpWindow(8 * 3600, 18 * 3600)));

  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z

  private ControlState state = ControlState.start(3);
  private boolean acidFitted;
  private boolean acidFree = true;
  private double ph = 7.4;
  private double freeChlorineMgL = 3;

  /** By doses and tests alone; NaN: the same. */
  private double balanceMgL = Double.NaN;

  private double blindLeftMgL = AMPLE_MG_L;
  private double givenMgL;
  private int usedUpTests;

  private boolean flow = true;
  private ControlLevel allowed = ControlLevel.PLAN;
  private double nowS = MIDNIGHT + 12 * 3600;

  private static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }

  private static Outlook outlook(double mgL) {
    return new Outlook(mgL, 0.2, 0.5, 0, 0.3, 0, 1);
  }

  private DutyRequest step(Measurement orpMv, double elapsedS) {
    nowS += elapsedS;
    Measurements measured =
        new Measurements(
            orpMv,
            value(ph),
            value(25),
            flow,
            Optional.empty(),
            600,
            flow,
            Optional.empty(),
            OptionalDouble.empty(),
            false,
            false,
            Outside.UNKNOWN);
    double byBalanceMgL = Double.isNaN(balanceMgL) ? freeChlorineMgL : balanceMgL;
    Estimate estimate =
        Estimates.withUsedUp(
            Estimates.of(outlook(freeChlorineMgL), outlook(byBalanceMgL), 0.1, 2, SETPOINT_MV),
            usedUpTests);
    Control.Result result =
        Control.step(
            SETTINGS,
            state,
            new Control.Inputs(
                measured,
                estimate,
                POOL,
                FEED,
                acidFitted,
                acidFree,
                0,
                givenMgL,
                BLIND_BUDGET_MG_L,
                blindLeftMgL,
                allowed,
                SunOnWater.START),
            nowS,
            elapsedS);
    state = result.state();
    return result.demand();
  }

  /** A scan of one second with ORP below the setpoint by the error. */
  private double duty(double errorMv) {
    return step(value(SETPOINT_MV - errorMv), 1).chlorineDuty();
  }

  private DutyRequest failed() {
    return step(
        new Measurement.None(Status.FAILURE, List.of(Plausibility.PRESENT), OptionalDouble.of(100)),
        1);
  }

  /** What the plan is where nothing comes between. */
  private double planned() {
    double planned = duty(0);
    assertEquals(state.plan().duty(), planned);
    assertTrue(planned > 0.1 && planned < 0.8, "a plan of " + planned + " shows nothing");
    return planned;
  }

  @Test
  void thePlanIsFedWhateverOrpSaysBetweenPlans() {
    double planned = planned();
    for (double errorMv : new double[] {5, -5, 100, -100}) {
      assertEquals(planned, duty(errorMv), "by " + errorMv + " mV");
    }
  }

  /** Twenty minutes a plan stands; what is believed by then makes the next. */
  @Test
  void thePlanIsMadeAnewEachTwentyMinutes() {
    double planned = planned();
    freeChlorineMgL = 2;
    for (int s = 1; s < 1200; s++) {
      assertEquals(planned, duty(0), "second " + s);
    }
    assertTrue(duty(0) > planned);
  }

  @Test
  void aTestMakesAnotherPlanAtOnce() {
    double planned = planned();
    freeChlorineMgL = 2;
    duty(0);
    state = state.tested();
    assertTrue(duty(0) > planned);
  }

  @Test
  void moreThanEnoughChlorineIsNotFed() {
    freeChlorineMgL = 9;
    assertEquals(0, duty(0));
    state = state.tested();
    freeChlorineMgL = 0.3;
    assertEquals(1, duty(0));
  }

  @Test
  void manualToAutoHasNoStepAndFades() {
    duty(0);
    state = state.withMode(Mode.MANUAL, 0.9);
    assertEquals(0.9, duty(0));
    state = state.withMode(Mode.AUTO, 0);
    double before = duty(0);
    assertEquals(0.9, before, 1e-12);
    for (int s = 1; s < 3600; s++) {
      double now = duty(0);
      boolean another = state.plan().forS() == 0;
      assertTrue(another || (now <= before && before - now < 1e-3), "second " + s);
      before = now;
    }
    // After an hour 0.4 is left by e^-4.
    assertEquals(state.plan().duty(), before, 0.01);
  }

  @Test
  void offIsOffAndOffToAutoBeginsAtZero() {
    double planned = planned();
    state = state.withMode(Mode.OFF, 0);
    assertEquals(0, duty(50));
    state = state.withMode(Mode.AUTO, 0);
    double before = duty(0);
    assertEquals(0, before);
    for (int s = 1; s < 900; s++) {
      double now = duty(0);
      assertTrue(now >= before && now - before < 1e-3, "second " + s);
      before = now;
    }
    assertEquals(planned * (1 - Math.exp(-899.0 / 900)), before, 1e-6);
  }

  @Test
  void autoToAutoIsNoTransfer() {
    duty(0);
    state = state.withMode(Mode.AUTO, 0);
    assertFalse(state.transfer());
  }

  /** Before anything has confirmed the water nothing is left of a budget. */
  @Test
  void blindFromTheStartFeedsNothing() {
    blindLeftMgL = 0;
    DutyRequest demand = failed();
    assertEquals(0, demand.chlorineDuty());
    assertEquals(0, demand.fallbackDuty());
  }

  @Test
  void blindIsNeverAboveTheLearnedDemand() {
    freeChlorineMgL = 0.3;
    assertEquals(1, duty(0));
    assertEquals(LEARNED, failed().chlorineDuty(), 1e-12);
    assertEquals(LEARNED, failed().fallbackDuty(), 1e-12);
  }

  /** Water that is known to be high is not fed the day's demand because a probe has failed. */
  @Test
  void blindIsNeverAboveThePlan() {
    freeChlorineMgL = 9;
    assertEquals(0, duty(0));
    for (int i = 0; i < 3000; i++) {
      assertEquals(0, failed().chlorineDuty(), "second " + i);
    }
  }

  /**
   * By hand: 1 mg/L that is left for two days and a half is 0.4 mg/L a day, a fifth of the demand;
   * what is fed falls with what is left, and never ends at once.
   */
  @Test
  void whatIsFedBlindIsRationed() {
    freeChlorineMgL = 0.3;
    blindLeftMgL = 1;
    duty(0);
    assertEquals(LEARNED / 5, failed().chlorineDuty(), 1e-12);
    double before = LEARNED / 5;
    for (blindLeftMgL = 1; blindLeftMgL > 0.01; blindLeftMgL *= 0.9) {
      double now = failed().chlorineDuty();
      assertTrue(now <= before && now > 0, blindLeftMgL + " mg/L left: " + now);
      before = now;
    }
  }

  /** A day at the ration of each moment: all of it is less than what there was to begin with. */
  @Test
  void theRationLastsForDaysAndNeverPassesTheBudget() {
    freeChlorineMgL = 0.3;
    blindLeftMgL = 5;
    double fedMgL = 0;
    for (int minute = 0; minute < 30 * 1440; minute++) {
      nowS += 59;
      double duty = failed().chlorineDuty();
      double fed = SETTINGS.pumpWanted(nowS) ? duty * 0.4 / 60 : 0;
      fedMgL += fed;
      blindLeftMgL -= fed;
      if (minute == 3 * 1440) {
        assertTrue(fedMgL < 4.5, "after three days " + fedMgL);
        assertTrue(duty > 0.05, "something is left to give: " + duty);
      }
    }
    assertTrue(fedMgL > 4.5 && fedMgL <= 5, "in all " + fedMgL);
  }

  /** A held sample is not fresh either: what it says is old. */
  @Test
  void aHeldSampleIsNotFollowed() {
    freeChlorineMgL = 0.3;
    duty(0);
    DutyRequest held =
        step(
            new Measurement.Value(
                100, Status.OUT_OF_SPECIFICATION, 30, List.of(Plausibility.PRESENT)),
            1);
    assertEquals(LEARNED, held.chlorineDuty(), 1e-12);
    assertEquals(held.fallbackDuty(), held.chlorineDuty());
  }

  /** Going blind in mid transfer must not bring back what manual fed. */
  @Test
  void manualHighThenBlindIsNotAboveTheLearnedDemand() {
    duty(0);
    state = state.withMode(Mode.MANUAL, 1);
    duty(0);
    state = state.withMode(Mode.AUTO, 0);
    assertTrue(failed().chlorineDuty() <= LEARNED);
    duty(0);
    assertTrue(failed().chlorineDuty() <= LEARNED);
  }

  /** Manual is a person's duty; the fallback that limits it is still the law's. */
  @Test
  void inManualTheFallbackStaysTheLearnedDemandAndItsRation() {
    duty(0);
    state = state.withMode(Mode.MANUAL, 1);
    DutyRequest demand = failed();
    assertEquals(1, demand.chlorineDuty());
    assertEquals(LEARNED, demand.fallbackDuty(), 1e-12);
    blindLeftMgL = 1;
    assertEquals(LEARNED / 5, failed().fallbackDuty(), 1e-12);
  }

  @Test
  void anotherTargetChangesNothingElse() {
    double planned = planned();
    ControlState before = state;
    state = state.withTarget(4);
    assertEquals(4, state.targetMgL());
    assertEquals(before.lastDuty(), state.lastDuty());
    assertEquals(before.doubt(), state.doubt());
    assertTrue(duty(0) > planned, "a new target wants a new plan");
  }

  @Test
  void superchlorinationFeedsByTheEstimateAndAsksForThePumpAtNight() {
    nowS = MIDNIGHT + 2 * 3600;
    assertFalse(step(value(SETPOINT_MV), 1).pumpRequest());
    state = state.withSuperchlorination(Superchlorination.begin(8, 3600));
    DutyRequest demand = step(value(SETPOINT_MV + 200), 1);
    assertEquals(1, demand.chlorineDuty(), "whatever ORP says");
    assertTrue(demand.pumpRequest());
    freeChlorineMgL = 7.5;
    assertEquals(0.5, duty(-200), 1e-12);
    freeChlorineMgL = 8;
    assertEquals(0, duty(-200));
    assertTrue(failed().chlorineDuty() <= LEARNED, "a failed ORP ends the raise's haste");
    step(value(SETPOINT_MV), 3600);
    assertFalse(step(value(SETPOINT_MV), 1).pumpRequest());
  }

  @Test
  void offEndsARaiseButNotItsReentryHold() {
    state = state.withSuperchlorination(Superchlorination.begin(8, 3600)).withMode(Mode.OFF, 0);
    assertFalse(state.superchlorination().running());
    assertTrue(state.superchlorination().reentry());
  }

  private void highPh() {
    acidFitted = true;
    ph = 7.8;
    for (int s = 0; s < 7200; s += 60) {
      step(value(SETPOINT_MV), 60);
    }
  }

  @Test
  void chlorinePausesForAcid() {
    highPh();
    assertTrue(state.acid().running());
    DutyRequest demand = step(value(SETPOINT_MV - 20), 1);
    assertEquals(0, demand.chlorineDuty());
    assertEquals(1, demand.acidDuty());
    assertEquals(state.plan().duty(), state.lastDuty(), "the pause is no verdict");
  }

  /** An empty acid tank must not take a third of the chlorine's time. */
  @Test
  void noTurnBeginsWhileAcidCannotBeFed() {
    acidFree = false;
    highPh();
    highPh();
    assertFalse(state.acid().running());
    acidFree = true;
    duty(0);
    assertTrue(state.acid().running());
  }

  @Test
  void offAndAnUnfittedFeederEndATurn() {
    highPh();
    acidFitted = false;
    assertEquals(0, step(value(SETPOINT_MV), 1).acidDuty());
    highPh();
    state = state.withMode(Mode.OFF, 0);
    assertEquals(0, step(value(SETPOINT_MV), 1).acidDuty());
  }

  private ControlLevel rungAfter(Measurement orpMv, double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      step(orpMv, 10);
    }
    return state.level().settled();
  }

  @Test
  void theRungSaysWhatTheLawStandsOn() {
    Measurement good = value(SETPOINT_MV);
    assertEquals(ControlLevel.PLAN, rungAfter(good, 60));
    Measurement failed = new Measurement.None(Status.FAILURE, List.of(), OptionalDouble.empty());
    assertEquals(ControlLevel.LEARNED_DEMAND, rungAfter(failed, 60));
    assertEquals(ControlLevel.PLAN, rungAfter(good, 60));
    state = state.withMode(Mode.MANUAL, 0.4);
    assertEquals(ControlLevel.NONE, rungAfter(good, 10));
    state = state.withMode(Mode.AUTO, 0);
    assertEquals(ControlLevel.PLAN, rungAfter(good, 10));
    state = state.withMode(Mode.OFF, 0);
    assertEquals(ControlLevel.NONE, rungAfter(good, 10));
  }

  /** pH out limits chlorine to the learned demand, whatever the law would do with a good ORP. */
  @Test
  void theInterlocksTakeRungsAway() {
    assertEquals(ControlLevel.PLAN, rungAfter(value(SETPOINT_MV), 60));
    allowed = ControlLevel.LEARNED_DEMAND;
    assertEquals(ControlLevel.LEARNED_DEMAND, rungAfter(value(SETPOINT_MV), 60));
    allowed = ControlLevel.NONE;
    assertEquals(ControlLevel.NONE, rungAfter(value(SETPOINT_MV), 10));
  }

  @Test
  void aNightWithoutFlowLeavesTheLadderAsItWas() {
    rungAfter(value(SETPOINT_MV), 60);
    flow = false;
    Measurement standing =
        new Measurement.None(
            Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.empty());
    assertEquals(ControlLevel.PLAN, rungAfter(standing, 10 * 3600));
  }

  /**
   * For a day the plan may go by an ORP that says 9 mg/L; then half of the balance's duty is fed.
   */
  @Test
  void noElectrodesWordAloneStarvesThePool() {
    freeChlorineMgL = 9;
    balanceMgL = 2;
    for (int minute = 0; minute < 1439; minute++) {
      assertEquals(0, step(value(SETPOINT_MV), 60).chlorineDuty(), "minute " + minute);
    }
    step(value(SETPOINT_MV), 60);
    assertTrue(state.doubt().longStarved());
    for (int minute = 0; minute < 1440; minute++) {
      double duty = step(value(SETPOINT_MV), 60).chlorineDuty();
      assertEquals(state.plan().balanceDuty() / 2, duty, 1e-12, "minute " + minute);
    }
    state = state.tested();
    assertFalse(state.doubt().longStarved(), "a test has told");
    assertEquals(0, duty(0));
  }

  /** What goes in by the label of the output, mg/L of the pool. */
  private double feeds(double hours) {
    double fedMgL = 0;
    for (int minute = 0; minute < 60 * hours; minute++) {
      double duty = step(value(SETPOINT_MV), 60).chlorineDuty();
      givenMgL = SETTINGS.pumpWanted(nowS) ? duty * 0.4 / 60 : 0;
      fedMgL += givenMgL;
    }
    return fedMgL;
  }

  /**
   * ORP calls for all there is for ten days, doses and tests for nothing: beyond the learned demand
   * of 2 mg/L a day no more goes in than the blind budget, and what comes back of it in three days.
   */
  @Test
  void noElectrodesWordAloneFeedsThePoolBeyondTheBudget() {
    freeChlorineMgL = 0.3;
    balanceMgL = 9;
    double fedMgL = feeds(10 * 24);
    assertTrue(fedMgL > 10 * 2 + 2, "ORP is followed for a while: " + fedMgL);
    assertTrue(fedMgL <= 10 * 2 + BLIND_BUDGET_MG_L * (1 + 10 / 3.0), "fed " + fedMgL);
  }

  /**
   * A test that found chlorine used up: as much as the target is goes in at once, whatever the
   * estimate makes of it; more the more tests in a row say so, and then it is over.
   */
  @Test
  void whatATestFoundUsedUpIsRestoredOnce() {
    double once = restored(1);
    double twice = restored(2);
    assertTrue(once > 1.5 && once < 3 + 2, "after one test " + once + " mg/L in a day");
    assertTrue(twice > once + 1, once + " mg/L, after two tests " + twice);
  }

  private double restored(int tests) {
    ControlTest each = new ControlTest();
    each.nowS = MIDNIGHT + 8 * 3600;
    each.freeChlorineMgL = 4;
    each.usedUpTests = tests;
    return each.feeds(24);
  }

  /** What is fed by hand, or raised, is not the electrode's doing. */
  @Test
  void outsideOfAutoNothingIsStarved() {
    freeChlorineMgL = 9;
    balanceMgL = 2;
    state = state.withMode(Mode.MANUAL, 0);
    for (int minute = 0; minute < 3 * 1440; minute++) {
      step(value(SETPOINT_MV), 60);
    }
    state =
        state.withMode(Mode.AUTO, 0).withSuperchlorination(Superchlorination.begin(8, 10 * 86_400));
    for (int minute = 0; minute < 3 * 1440; minute++) {
      step(value(SETPOINT_MV), 60);
    }
    assertEquals(Doubt.NONE, state.doubt());
  }

  /** By hand: 20 g/h in ten hours are 200 g, of which the cap of 24 h leaves 160 g. */
  @Test
  void theCapacityIsWorkedOutWithThePlan() {
    assertFalse(state.capacity().known());
    duty(0);
    assertTrue(state.capacity().known());
    assertEquals(160, state.capacity().bringsGDay(), 1e-9);
    assertFalse(state.capacity().lacking());
  }

  /** A raise that went on under manual would keep the wider limit of free chlorine. */
  @Test
  void leavingAutoEndsASuperchlorinationButNotItsReentryHold() {
    for (Mode mode : List.of(Mode.MANUAL, Mode.OFF)) {
      ControlState raised =
          ControlState.start(3).withSuperchlorination(Superchlorination.begin(8, 3600));
      ControlState left = raised.withMode(mode, 0.5);
      assertFalse(left.superchlorination().running(), mode.key());
      assertTrue(left.superchlorination().reentry(), mode.key());
      assertTrue(raised.withMode(Mode.AUTO, 0).superchlorination().running());
    }
  }
}
