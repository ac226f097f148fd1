package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import java.util.function.DoubleFunction;
import limnostat.control.ControlSettings.PiTuning;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;
import limnostat.estimate.SlowSettings;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

class PlanTest {
  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z
  private static final double SURE = 0.1;
  private static final double RISE_MG_L_H = 0.4;
  private static final PumpWindow TEN_TO_SIX = new PumpWindow(10 * 3600, 18 * 3600);

  /** 3 mg/L, 0.3 of it lost in a day and 0.6 mg/L besides. */
  private static final Outlook POOL = new Outlook(3, 0.3, 0.6, 0, 0, 0, 1);

  private static Hour mean(double at) {
    return Hour.MEAN;
  }

  private static ControlSettings settings(PumpWindow... windows) {
    return new ControlSettings(
        3, 7.4, ZoneOffset.UTC, List.of(windows), new PiTuning(0.02, 14_400));
  }

  private static double duty(Outlook outlook, double targetMgL, double atHour, PumpWindow... w) {
    return Plan.duty(
        settings(w),
        outlook,
        SURE,
        targetMgL,
        RISE_MG_L_H,
        PlanTest::mean,
        MIDNIGHT + 3600 * atHour);
  }

  /** What a policy does to the pool: hour by hour, of the last four of twelve days. */
  private record Run(double dutySum, double meanMgL, double out) {}

  private interface Policy {
    double duty(Outlook now, double unixTimeS);
  }

  private static Run run(
      Outlook start,
      double targetMgL,
      DoubleFunction<Hour> hourAt,
      Policy policy,
      PumpWindow... w) {
    ControlSettings settings = settings(w);
    Outlook now = start;
    double duties = 0;
    double sum = 0;
    int out = 0;
    int steps = 12 * 96;
    for (int i = 0; i < steps; i++) {
      double at = MIDNIGHT + 900 * i;
      double duty = settings.pumpWanted(at) ? policy.duty(now, at) : 0;
      double f =
          now.after(
              now.freeChlorineMgL(), duty * RISE_MG_L_H / 4, hourAt.apply(at + 450), 1.0 / 96, 0);
      now = at(now, f);
      if (i >= 8 * 96) {
        duties += duty / 4;
        sum += f / (4 * 96);
        out += f < targetMgL * 0.7 || f > targetMgL * 1.3 ? 1 : 0;
      }
    }
    return new Run(duties / 4, sum, out / (4 * 96.0));
  }

  private static Outlook at(Outlook o, double f) {
    return new Outlook(
        f,
        o.darkPerDay(),
        o.steadyMgLDay(),
        o.peopleMgLDay(),
        o.sunPerDay(),
        o.lnCloud(),
        o.gain());
  }

  private static Run planned(
      Outlook start, double targetMgL, DoubleFunction<Hour> hourAt, PumpWindow... w) {
    return run(
        start,
        targetMgL,
        hourAt,
        (now, t) -> Plan.duty(settings(w), now, SURE, targetMgL, RISE_MG_L_H, hourAt, t),
        w);
  }

  /** By hand: at 3 mg/L 0.9 + 0.6 · 3/3.1 = 1.48 mg/L are lost a day: 3.7 hours of the output. */
  @Test
  void itHoldsTheTargetByMakingUpForTheLoss() {
    Run run = planned(POOL, 3, PlanTest::mean);
    assertEquals(3, run.meanMgL, 0.1);
    assertEquals(0, run.out);
    assertEquals(3.7, run.dutySum, 0.2);
  }

  @Test
  void itFeedsInThePumpsHoursAlone() {
    assertEquals(0, duty(at(POOL, 2), 3, 3, TEN_TO_SIX));
    assertEquals(1, duty(at(POOL, 2), 3, 11, TEN_TO_SIX));
    Run run = planned(POOL, 3, PlanTest::mean, TEN_TO_SIX);
    assertEquals(3, run.meanMgL, 0.2);
    assertEquals(0, run.out);
  }

  @Test
  void anOutputThatGivesHalfIsRunTwiceAsLong() {
    Outlook half = new Outlook(3, 0.3, 0.6, 0, 0, 0, 0.5);
    assertEquals(
        2 * planned(POOL, 3, PlanTest::mean).dutySum,
        planned(half, 3, PlanTest::mean).dutySum,
        0.4);
  }

  @Test
  void farAboveTheTargetItFeedsNothingAndFarBelowAllItCan() {
    for (double above : new double[] {6, 9, 20, 100}) {
      assertEquals(0, duty(at(POOL, above), 3, 12), above + " mg/L");
    }
    for (double below : new double[] {0.01, 0.2, 1}) {
      assertEquals(1, duty(at(POOL, below), 3, 12), below + " mg/L");
    }
  }

  /** An estimate that tells nearly nothing still leaves a plan: down from far above, up from 0. */
  @Test
  void anUnsureEstimateIsFedAsWell() {
    assertEquals(
        1, Plan.duty(settings(), at(POOL, 0.2), 1.5, 3, RISE_MG_L_H, PlanTest::mean, MIDNIGHT));
    assertEquals(
        0, Plan.duty(settings(), at(POOL, 7), 1.5, 3, RISE_MG_L_H, PlanTest::mean, MIDNIGHT));
  }

  @Test
  void moreIsHeldForMore() {
    double before = 0;
    for (double target : new double[] {0.5, 1, 2, 3, 4, 5}) {
      double mean = planned(at(POOL, target), target, PlanTest::mean).meanMgL;
      assertTrue(mean > before, "target " + target + ": " + mean);
      assertEquals(target, mean, 0.1 * target + 0.05, "target " + target);
      before = mean;
    }
  }

  /** A night of 16 h takes more than the band's half: it is laid in before the pump stops. */
  @Test
  void whatTheNightTakesIsLaidInLate() {
    Outlook hungry = new Outlook(3, 0.35, 0.7, 0, 0, 0, 1);
    double noon = duty(hungry, 3, 12, TEN_TO_SIX);
    double late = duty(hungry, 3, 16.5, TEN_TO_SIX);
    assertTrue(late > noon + 0.3, noon + " at noon, " + late + " late");
  }

  /** Of all constant duties in the pump's hours none keeps the pool in the band for longer. */
  @Test
  void noConstantDutyDoesBetter() {
    EstimateSettings place =
        new EstimateSettings(
            50, 45, 0, SlowSettings.told(40, 3000, ChlorineForm.SALT_CELL, 1), 1.5, 3);
    DoubleFunction<Hour> hours = at -> Hour.of(place, at);
    Outlook sunny = new Outlook(3, 0.2, 0.6, 0.4, 0.3, 0, 1);
    Run plan = planned(sunny, 3, hours, TEN_TO_SIX);
    double best = 1;
    for (int i = 0; i <= 100; i++) {
      double constant = i / 100.0;
      best = Math.min(best, run(sunny, 3, hours, (now, t) -> constant, TEN_TO_SIX).out);
    }
    assertTrue(plan.out <= best, plan.out + " of the time outside, at best " + best);
  }
}
