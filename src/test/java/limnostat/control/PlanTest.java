package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import java.util.function.DoubleFunction;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Estimate;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Estimates;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;
import limnostat.estimate.Residual;
import limnostat.rig.Fixtures;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** An output of 0.4 mg/L an hour at full duty. */
class PlanTest {
  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z
  private static final double RISE_MG_L_H = 0.4;

  /** One that suffices by night alone. */
  private static final double LARGE_MG_L_H = 1.5;

  private static final double KNOWN_SD_SHARE = 0.01;
  private static final PumpWindow BY_DAY = new PumpWindow(8 * 3600, 18 * 3600);
  private static final PumpWindow BY_NIGHT = new PumpWindow(21 * 3600, 7 * 3600);
  private static final EstimateSettings POOL = Fixtures.saltPool(3);

  private static Hour summer(double atS) {
    return Hour.of(POOL, atS);
  }

  private static ControlSettings settings(double targetMgL, List<PumpWindow> windows) {
    return new ControlSettings(targetMgL, 7.4, ZoneOffset.UTC, windows);
  }

  private static Plan plan(
      Estimate estimate, ControlSettings settings, DoubleFunction<Hour> hours, double atS) {
    return plan(estimate, settings, RISE_MG_L_H, hours, atS);
  }

  private static Plan plan(
      Estimate estimate,
      ControlSettings settings,
      double riseMgLH,
      DoubleFunction<Hour> hours,
      double atS) {
    return Plan.of(
        new Plan.Inputs(settings, settings.freeChlorineTargetMgL(), riseMgLH, hours, atS),
        estimate);
  }

  private static Estimate known(Outlook outlook) {
    return Estimates.of(outlook, KNOWN_SD_SHARE * outlook.freeChlorineMgL(), 2, 700);
  }

  private static double duty(Estimate estimate, double targetMgL, PumpWindow... windows) {
    return plan(estimate, settings(targetMgL, List.of(windows)), at -> Hour.MEAN, MIDNIGHT).duty();
  }

  private static double duty(Outlook outlook, double targetMgL, PumpWindow... windows) {
    return duty(known(outlook), targetMgL, windows);
  }

  private static Outlook at(Outlook o, double freeChlorineMgL) {
    return new Outlook(
        freeChlorineMgL,
        o.darkPerDay(),
        o.steadyMgLDay(),
        o.peopleMgLDay(),
        o.sunPerDay(),
        o.lnCloud(),
        o.gain());
  }

  /**
   * By hand: 2.4 mg/L a day lost whatever the level, 0.4 mg/L an hour at full duty: a quarter of
   * the time. Doses and tests alone know the level as well as all else here.
   */
  @Test
  void atTheTargetDosesAndTestsAloneMakeUpForTheLoss() {
    Outlook steady = new Outlook(3, 0, 2.4 * 3.1 / 3, 0, 0, 0, 1);
    Plan plan = plan(known(steady), settings(3, List.of()), at -> Hour.MEAN, MIDNIGHT);
    assertEquals(0.25, plan.balanceDuty(), 0.01);
    assertEquals(0.25, plan.duty(), 0.05);
  }

  /** Sun alone takes it, and nothing is fed by day: least is left when the sun has gone. */
  @Test
  void leastIsLeftAtTheEndOfADayOfSun() {
    Outlook sunny = new Outlook(3, 0.01, 0.05, 0, 1, 0, 1);
    ControlSettings byNight = settings(3, List.of(BY_NIGHT));
    double lowestS = plan(known(sunny), byNight, PlanTest::summer, MIDNIGHT).lowestUnixS();
    assertEquals(20, (lowestS - MIDNIGHT) / 3600, 1.5);
  }

  @Test
  void noHourStandsOutWhereAllAreAlike() {
    Outlook steady = new Outlook(3, 0, 2.4 * 3.1 / 3, 0, 0, 0, 1);
    ControlSettings always = settings(3, List.of());
    assertEquals(0, plan(known(steady), always, at -> Hour.MEAN, MIDNIGHT).lowestUnixS());
  }

  /** The same in eight hours of pump takes three times the duty. */
  @Test
  void itFeedsInThePumpsHours() {
    Outlook steady = new Outlook(3, 0, 2.4, 0, 0, 0, 1);
    double always = duty(steady, 3);
    double inHours = duty(steady, 3, new PumpWindow(8 * 3600, 16 * 3600));
    assertEquals(3 * always, inHours, 0.2);
  }

  @Test
  void anOutputThatGivesHalfGetsTwiceTheDuty() {
    Outlook whole = new Outlook(3, 0.2, 0.5, 0, 0.2, 0, 1);
    Outlook half = new Outlook(3, 0.2, 0.5, 0, 0.2, 0, 0.5);
    assertEquals(2 * duty(whole, 3), duty(half, 3), 0.01);
  }

  @Test
  void farAboveTheTargetItFeedsNothingAndFarBelowAllItCan() {
    assertEquals(0, duty(new Outlook(8, 0.2, 0.5, 0, 0.2, 0, 1), 3));
    assertEquals(1, duty(new Outlook(0.2, 3, 5, 0, 3, 0, 1), 5));
  }

  @Test
  void moreIsWantedForMore() {
    Outlook outlook = new Outlook(3, 0.3, 0.5, 0, 0.3, 0, 1);
    double before = -1;
    for (double target = 2; target <= 5; target += 0.25) {
      double duty = duty(outlook, target);
      assertTrue(duty >= before, "target " + target);
      before = duty;
    }
  }

  /** What a pool's days are like when it is fed by the plan and known all along. */
  private record Days(
      double bathingMgL, double leastBathingMgL, double noonDuty, double nightDuty) {}

  /** Steps of the plan's own, with the plan's own equations: what is held is its arithmetic. */
  private static Days days(Outlook pool, ControlSettings settings) {
    double f = settings.freeChlorineTargetMgL();
    double sum = 0;
    double least = Double.POSITIVE_INFINITY;
    int bathing = 0;
    double noon = 0;
    double night = 0;
    int steps = 8 * 72;
    for (int step = 0; step < steps; step++) {
      double atS = MIDNIGHT + 1200 * step;
      Hour hour = summer(atS + 600);
      double duty = plan(known(at(pool, f)), settings, LARGE_MG_L_H, PlanTest::summer, atS).duty();
      double feeds = settings.pumpWanted(atS) ? duty : 0;
      f = pool.after(f, feeds * LARGE_MG_L_H / 3, hour, 1 / 72.0, 0);
      if (step >= steps / 2 && settings.bathing(atS)) {
        sum += f;
        least = Math.min(least, f);
        bathing++;
      }
      noon = step % 72 == 36 ? duty : noon;
      night = step % 72 == 72 - 3 ? duty : night;
    }
    return new Days(sum / bathing, least, noon, night);
  }

  /**
   * What is known is held at the target while people bathe, whatever takes it and whenever the pump
   * runs: in the shade, stabilised in the sun, hardly stabilised, and with much use by people.
   */
  @ParameterizedTest
  @CsvSource({
    "0.2, 0.5, 0.0, 0.0",
    "0.1, 0.3, 0.2, 0.4",
    "0.1, 0.2, 0.2, 1.0",
    "0.1, 0.3, 1.5, 0.3"
  })
  void knownWaterIsHeldAtTheTargetInTheBathingHours(
      double darkPerDay, double steadyMgLDay, double peopleMgLDay, double sunPerDay) {
    Outlook pool = new Outlook(3, darkPerDay, steadyMgLDay, peopleMgLDay, sunPerDay, 0, 1);
    for (List<PumpWindow> windows :
        List.of(List.<PumpWindow>of(), List.of(BY_DAY), List.of(BY_NIGHT))) {
      Days days = days(pool, settings(3, windows));
      assertEquals(3, days.bathingMgL(), 0.1 * 3, () -> windows + " " + pool + " " + days);
      double swing = windows.contains(BY_NIGHT) ? 0.6 : 0.25;
      assertTrue(days.leastBathingMgL() > (1 - swing) * 3, () -> windows + " " + pool + " " + days);
    }
  }

  /**
   * The sun takes half of it in a day, and the pump runs by night alone: so night is when to feed.
   */
  @Test
  void unstabilisedWaterIsFedByNightWhereThePumpRunsThen() {
    Outlook pool = new Outlook(3, 0.1, 0.2, 0.2, 1.0, 0, 1);
    Days byNight = days(pool, settings(3, List.of(BY_NIGHT)));
    Days always = days(pool, settings(3, List.of()));
    assertTrue(byNight.nightDuty() > 2 * always.nightDuty(), byNight + " " + always);
    assertTrue(always.noonDuty() > 2 * always.nightDuty(), "each hour gets what it takes" + always);
  }

  /** People bathe in the evening alone: what the sun took at noon does not matter. */
  @Test
  void theTargetCountsInTheBathingHoursAlone() {
    Outlook pool = new Outlook(3, 0.1, 0.2, 0.2, 1.0, 0, 1);
    ControlSettings evening =
        new ControlSettings(
            3,
            7.4,
            ZoneOffset.UTC,
            List.of(BY_NIGHT),
            List.of(new PumpWindow(18 * 3600, 20 * 3600)));
    ControlSettings morning =
        new ControlSettings(
            3,
            7.4,
            ZoneOffset.UTC,
            List.of(BY_NIGHT),
            List.of(new PumpWindow(8 * 3600, 10 * 3600)));
    Days evenings = days(pool, evening);
    Days mornings = days(pool, morning);
    assertEquals(3, evenings.bathingMgL(), 0.1 * 3, evenings::toString);
    assertEquals(3, mornings.bathingMgL(), 0.1 * 3, mornings::toString);
    assertTrue(evenings.nightDuty() > 1.3 * mornings.nightDuty(), evenings + " " + mornings);
  }

  /** No bathing hours are all hours: a plan for none would hold nothing. */
  @Test
  void withoutBathingHoursEveryHourCounts() {
    Outlook pool = new Outlook(3, 0.1, 0.3, 0.2, 0.4, 0, 1);
    ControlSettings none = new ControlSettings(3, 7.4, ZoneOffset.UTC, List.of(), List.of());
    assertEquals(3, days(pool, none).bathingMgL(), 0.1 * 3);
  }

  /** How many bathing hours of the coming day of all levels of a lognormal are below the target. */
  private static double below(Estimate e, ControlSettings settings, double more) {
    Outlook outlook = e.outlook();
    int below = 0;
    int count = 0;
    for (double level : e.residual().levels()) {
      double f = level * e.freeChlorineMgL();
      for (int hour = 0; hour < 24; hour++) {
        double atS = MIDNIGHT + 3600.0 * (hour + 0.5);
        double before = f;
        f = outlook.after(f, settings.pumpWanted(atS) ? more : 0, Hour.MEAN, 1 / 24.0, 0);
        if (settings.bathing(atS)) {
          below += (before + f) / 2 < settings.freeChlorineTargetMgL() ? 1 : 0;
          count++;
        }
      }
    }
    return below / (double) count;
  }

  /** Known to a factor only: as likely below the target as above it, give or take. */
  @ParameterizedTest
  @CsvSource({"3, 0.2", "3, 0.4", "2.5, 0.6", "3.5, 0.6", "2, 0.3"})
  void underDoubtTheOddsAreEven(double freeChlorineMgL, double sdShare) {
    Outlook outlook = new Outlook(freeChlorineMgL, 0, 2.4, 0, 0, 0, 1);
    ControlSettings settings = settings(3, List.of());
    Estimate estimate = Estimates.of(outlook, sdShare * freeChlorineMgL, 2.4, 700);
    double duty = plan(estimate, settings, at -> Hour.MEAN, MIDNIGHT).duty();
    assertTrue(duty > 0 && duty < 1, "duty " + duty);
    double below = below(estimate, settings, duty * RISE_MG_L_H);
    assertTrue(below >= 0.25 && below <= 0.65, duty + ": " + below + " below");
  }

  /**
   * Two chances in three that next to nothing is left: the estimate's own figure may be as high.
   */
  @Test
  void whatIsLikelyGoneIsFedWhateverTheMeanSays() {
    Outlook outlook = new Outlook(4, 0, 2.4, 0, 0, 0, 1);
    Residual gone = new Residual(1, 0.66, 0.66, 6, List.of(0.05, 0.06, 0.07, 0.08, 0.1, 1.2, 1.5));
    double doubted = duty(Estimates.with(known(outlook), gone), 3);
    double sure = duty(outlook, 3);
    assertTrue(doubted > 2 * sure, doubted + " of " + sure);
  }

  /** Unsure as it is low is not unsure: two deviations above are still far below the target. */
  @Test
  void whatIsSurelyLowIsFedAtLeastWhatThePoolUses() {
    Outlook outlook = new Outlook(0.5, 0.2, 1, 0, 0.3, 0, 1);
    double usesDuty = (0.2 * 3 + 1 + 0.3 * 3) / 24 / RISE_MG_L_H;
    double duty = duty(Estimates.of(outlook, 0.6 * 0.5, 2.5, 700), 3);
    assertTrue(duty > usesDuty, duty + " of " + usesDuty);
  }

  /** What ORP says has no part in what doses and tests alone call for. */
  @Test
  void theBalancesDutyIsThatOfDosesAndTestsAlone() {
    Outlook byOrp = new Outlook(6, 0.2, 1, 0, 0.3, 0, 1);
    Outlook byBalance = new Outlook(2, 0.2, 1, 0, 0.3, 0, 1);
    ControlSettings settings = settings(3, List.of());
    Plan plan =
        plan(Estimates.of(byOrp, byBalance, 0.3, 2, 700), settings, at -> Hour.MEAN, MIDNIGHT);
    Plan alone = plan(known(byBalance), settings, at -> Hour.MEAN, MIDNIGHT);
    assertEquals(0, plan.duty());
    assertEquals(alone.balanceDuty(), plan.balanceDuty());
    assertTrue(plan.balanceDuty() > 0.1, plan::toString);
  }

  @Test
  void itStandsForTwentyMinutes() {
    assertTrue(Plan.NONE.due(0));
    Plan plan = new Plan(0.3, 0.4, 0, 0);
    assertTrue(!plan.aged(600).due(599) && plan.aged(600).due(600));
    assertTrue(plan.expired().due(0));
    assertEquals(0.3, plan.expired().duty());
  }
}
