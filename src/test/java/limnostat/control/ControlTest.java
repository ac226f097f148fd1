package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.Control.Demand;
import limnostat.control.ControlSettings.PiTuning;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Consistency;
import limnostat.estimate.Estimate;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Outlook;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.SunOnWater;
import limnostat.estimate.TestDue;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.measure.Plausibility;
import limnostat.measure.Status;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

/** Feed-forward is 0.5 throughout: 2 mg/L a day in 50 m³ by 20 g/h in ten hours of pump. */
class ControlTest {
  private static final double GAIN = 0.02;
  private static final double INTEGRAL_TIME_S = 4 * 3600;
  private static final double FEED_FORWARD = 0.5;
  private static final double SETPOINT_MV = 700;
  private static final EstimateSettings POOL =
      new EstimateSettings(50, 46, 8, SlowSettings.told(30, 3400, ChlorineForm.SALT_CELL, 1), 2, 3);
  private static final Feed FEED = new Feed(20, 20, 160);
  private static final Outlook OUTLOOK = new Outlook(3, 0.2, 0.5, 0, 0.3, 0, 1);

  private static final ControlSettings SETTINGS =
      new ControlSettings(
          3,
          7.4,
          ZoneOffset.UTC,
          List.of(new PumpWindow(8 * 3600, 18 * 3600)),
          new PiTuning(GAIN, INTEGRAL_TIME_S));

  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z

  private ControlState state = ControlState.start(3);
  private boolean chlorineFree = true;
  private boolean acidFitted;
  private boolean acidFree = true;
  private double ph = 7.4;
  private double freeChlorineMgL = 3;

  /** So unsure that ORP alone has to do. */
  private double sdMgL = 9;

  private boolean flow = true;
  private Rung allowed = Rung.PLAN;
  private double nowS = MIDNIGHT + 12 * 3600;

  private static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }

  private Demand step(Measurement orpMv, double elapsedS) {
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
    Estimate estimate =
        new Estimate(
            freeChlorineMgL,
            sdMgL,
            2,
            0.5,
            SETPOINT_MV,
            0,
            Consistency.START,
            OUTLOOK,
            TestDue.NONE);
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
                chlorineFree,
                0,
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

  private Demand failed() {
    return step(
        new Measurement.None(Status.FAILURE, List.of(Plausibility.PRESENT), OptionalDouble.of(100)),
        1);
  }

  private void hold(double errorMv, double hours) {
    for (int i = 0; i < hours * 360; i++) {
      step(value(SETPOINT_MV - errorMv), 10);
    }
  }

  @Test
  void feedForwardIsTheDaysDemandOverThePumpsHours() {
    assertEquals(FEED_FORWARD, duty(0), 1e-12);
  }

  @Test
  void feedbackIsProportionalAndIntegral() {
    assertEquals(FEED_FORWARD + GAIN * 5, duty(5), 1e-12);
    state = ControlState.start(3);
    hold(5, 4);
    // After Ti the integral has grown by what the proportional part gives: K e.
    assertEquals(GAIN * 5, state.integral(), 0.002);
  }

  @Test
  void moreThanEnoughChlorineIsNotFed() {
    assertEquals(0, duty(-100));
    assertEquals(1, duty(100));
  }

  /** Saturated for two days: without back-calculation the integral would sit at its bound. */
  @Test
  void theIntegralDoesNotWindUp() {
    hold(100, 48);
    assertTrue(duty(-2) < 1, "leaves saturation with the error's sign");
    assertTrue(state.integral() <= 1 - FEED_FORWARD + 1e-9);
    hold(-100, 48);
    assertTrue(duty(2) > 0, "and from below");
  }

  @Test
  void theIntegralIsBoundedWhatever() {
    for (int i = 0; i < 1000; i++) {
      step(value(i % 7 == 0 ? -1e6 : 1e6), 1e5);
      assertTrue(Math.abs(state.integral()) <= 1);
    }
  }

  @Test
  void theIntegralStandsStillWhileTheOutputDoesNotAct() {
    duty(5);
    double integral = state.integral();
    chlorineFree = false;
    hold(20, 5);
    assertEquals(integral, state.integral(), "held by an interlock");
    chlorineFree = true;
    state = state.withMode(Mode.MANUAL, 0.3);
    hold(20, 5);
    assertEquals(integral, state.integral(), "manual");
    state = state.withMode(Mode.AUTO, 0).withSuperchlorination(Superchlorination.begin(8, 1e6));
    hold(20, 5);
    assertEquals(integral, state.integral(), "superchlorination");
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
      assertTrue(now <= before && before - now < 1e-3, "second " + s);
      before = now;
    }
    assertEquals(FEED_FORWARD, before, 0.01);
  }

  @Test
  void offIsOffAndOffToAutoBeginsAtZero() {
    duty(0);
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
    assertEquals(FEED_FORWARD * (1 - Math.exp(-899.0 / 900)), before, 1e-6);
  }

  @Test
  void autoToAutoIsNoTransfer() {
    duty(0);
    state = state.withMode(Mode.AUTO, 0);
    assertFalse(state.transfer());
  }

  @Test
  void blindFromTheStartFeedsNothing() {
    Demand demand = failed();
    assertEquals(0, demand.chlorineDuty());
    assertEquals(0, demand.fallbackDuty());
  }

  @Test
  void blindIsNeverAboveTheLearnedDemand() {
    hold(100, 1);
    assertEquals(1, duty(100));
    assertEquals(FEED_FORWARD, failed().chlorineDuty(), 1e-12);
  }

  @Test
  void blindIsNeverAboveTheLastGoodDuty() {
    assertEquals(0.1, duty(-20), 1e-12);
    for (int i = 0; i < 1000; i++) {
      Demand demand = failed();
      assertTrue(demand.chlorineDuty() <= 0.1 + 1e-12 && demand.fallbackDuty() <= 0.1 + 1e-12);
    }
  }

  /** A held sample is not fresh either: what it says is old. */
  @Test
  void aHeldSampleIsNotFollowed() {
    duty(0);
    Demand held =
        step(
            new Measurement.Value(
                100, Status.OUT_OF_SPECIFICATION, 30, List.of(Plausibility.PRESENT)),
            1);
    assertEquals(FEED_FORWARD, held.chlorineDuty(), 1e-12);
    assertEquals(held.fallbackDuty(), held.chlorineDuty());
  }

  /** Going blind in mid transfer must not bring back what manual fed. */
  @Test
  void manualHighThenBlindIsNotAboveTheLearnedDemand() {
    duty(0);
    state = state.withMode(Mode.MANUAL, 1);
    duty(0);
    state = state.withMode(Mode.AUTO, 0);
    assertTrue(failed().chlorineDuty() <= FEED_FORWARD);
    duty(0);
    assertTrue(failed().chlorineDuty() <= FEED_FORWARD);
  }

  /** Manual is a person's duty; the fallback that limits it is still the law's. */
  @Test
  void inManualTheFallbackStaysTheLearnedDemand() {
    duty(-20);
    state = state.withMode(Mode.MANUAL, 1);
    Demand demand = failed();
    assertEquals(1, demand.chlorineDuty());
    assertEquals(0.1, demand.fallbackDuty(), 1e-12);
  }

  @Test
  void anotherTargetChangesNothingElse() {
    duty(5);
    ControlState before = state;
    state = state.withTarget(4);
    assertEquals(4, state.targetMgL());
    assertEquals(before.integral(), state.integral());
    assertEquals(before.lastGoodDuty(), state.lastGoodDuty());
    assertTrue(Double.isInfinite(state.planS()), "a new target wants a new plan");
  }

  @Test
  void superchlorinationFeedsByTheEstimateAndAsksForThePumpAtNight() {
    nowS = MIDNIGHT + 2 * 3600;
    assertFalse(step(value(SETPOINT_MV), 1).pumpRequest());
    state = state.withSuperchlorination(Superchlorination.begin(8, 3600));
    Demand demand = step(value(SETPOINT_MV + 200), 1);
    assertEquals(1, demand.chlorineDuty(), "whatever ORP says");
    assertTrue(demand.pumpRequest());
    freeChlorineMgL = 7.5;
    assertEquals(0.5, duty(-200), 1e-12);
    freeChlorineMgL = 8;
    assertEquals(0, duty(-200));
    assertTrue(failed().chlorineDuty() <= FEED_FORWARD, "a failed ORP ends the raise's haste");
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
  void chlorinePausesForAcidAndNothingIsLearned() {
    highPh();
    assertTrue(state.acid().running());
    double integral = state.integral();
    Demand demand = step(value(SETPOINT_MV - 20), 1);
    assertEquals(0, demand.chlorineDuty());
    assertEquals(1, demand.acidDuty());
    assertEquals(integral, state.integral());
    assertEquals(FEED_FORWARD + GAIN * 20, state.lastGoodDuty(), 0.01, "the pause is no verdict");
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

  private Rung rungAfter(Measurement orpMv, double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      step(orpMv, 10);
    }
    return state.ladder().rung();
  }

  @Test
  void theRungSaysWhatTheLawStandsOn() {
    Measurement good = value(SETPOINT_MV);
    assertEquals(Rung.ORP_ALONE, rungAfter(good, 60));
    sdMgL = 0.3;
    assertEquals(Rung.PLAN, rungAfter(good, 60));
    assertEquals(state.plan(), duty(0), 1e-12);
    Measurement failed = new Measurement.None(Status.FAILURE, List.of(), OptionalDouble.empty());
    assertEquals(Rung.LEARNED_DEMAND, rungAfter(failed, 60));
    assertEquals(Rung.PLAN, rungAfter(good, 60));
    state = state.withMode(Mode.MANUAL, 0.4);
    assertEquals(Rung.NONE, rungAfter(good, 10));
    state = state.withMode(Mode.AUTO, 0);
    assertEquals(Rung.PLAN, rungAfter(good, 10));
    state = state.withMode(Mode.OFF, 0);
    assertEquals(Rung.NONE, rungAfter(good, 10));
  }

  /** pH out limits chlorine to the learned demand, whatever the law would do with a good ORP. */
  @Test
  void theInterlocksTakeRungsAway() {
    sdMgL = 0.3;
    assertEquals(Rung.PLAN, rungAfter(value(SETPOINT_MV), 60));
    allowed = Rung.LEARNED_DEMAND;
    assertEquals(Rung.LEARNED_DEMAND, rungAfter(value(SETPOINT_MV), 60));
    allowed = Rung.NONE;
    assertEquals(Rung.NONE, rungAfter(value(SETPOINT_MV), 10));
  }

  @Test
  void aNightWithoutFlowLeavesTheLadderAsItWas() {
    sdMgL = 0.3;
    rungAfter(value(SETPOINT_MV), 60);
    flow = false;
    Measurement standing =
        new Measurement.None(
            Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.empty());
    assertEquals(Rung.PLAN, rungAfter(standing, 10 * 3600));
  }

  /** 35 % of itself is sure enough to stay on the plan, 30 % to come back to it. */
  @Test
  void anEstimateAtTheEdgeDoesNotSwitchToAndFro() {
    Measurement good = value(SETPOINT_MV);
    sdMgL = 3 * 0.34;
    assertEquals(Rung.PLAN, rungAfter(good, 60));
    sdMgL = 3 * 0.36;
    assertEquals(Rung.ORP_ALONE, rungAfter(good, 60));
    sdMgL = 3 * 0.34;
    assertEquals(Rung.ORP_ALONE, rungAfter(good, 600));
    sdMgL = 3 * 0.29;
    assertEquals(Rung.PLAN, rungAfter(good, 60));
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
