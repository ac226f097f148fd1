package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.control.ControlLevel;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.safety.Cause;
import limnostat.scan.ScanSettings.Channel;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Stories of days on the simulated pool, in whole scans, for what takes days to be told. */
@Tag("slow")
class LongStoriesTest {
  private static final double STEP_S = 30;
  private static final double START = 1_782_864_000; // 2026-07-01T00:00:00Z

  private final List<ScanEvent> events = new ArrayList<>();
  private final List<Command> commands = new ArrayList<>();
  private ScanSettings settings;
  private Pool pool;
  private ScanState state;
  private ScanOutcome out;
  private double nowS = START;

  /**
   * The domestic pool of 50 m³, which uses some 100 g a day in July, and its pump from 8 to 18 h.
   *
   * @param outputGH what the cell gives, g/h; its caps are far off
   */
  private void pool(double outputGH, DoseCaps caps) {
    ScanSettings home = TestSettings.pool();
    settings =
        new ScanSettings(
            home.measure(),
            home.estimate(),
            new ControlSettings(
                3, 7.4, ZoneOffset.UTC, List.of(new PumpWindow(8 * 3600, 18 * 3600))),
            home.limits(),
            new Channel(home.chlorine().output(), caps),
            Channel.NONE);
    pool = new Pool(PlantSettings.domestic(1).withLabelGH(outputGH).withWater(3, 30, 3400), START);
    state = ScanState.start(settings);
  }

  private void usualPool() {
    pool(20, new DoseCaps(20, 100, 1000, 1));
  }

  private void live(double hours) {
    for (double s = 0; s < hours * 3600; s += STEP_S) {
      out =
          Scan.step(
              settings,
              state,
              new ScanInputs(
                  STEP_S,
                  nowS,
                  true,
                  pool.signals(),
                  Map.of(Output.CHLORINE, state.chlorine().account().requested()),
                  false,
                  true,
                  commands.stream().map(c -> CommandSource.request(c)).toList()));
      commands.clear();
      events.addAll(out.events());
      state = out.state();
      nowS += STEP_S;
      pool.advance(nowS, out.outputs());
    }
  }

  private void test() {
    commands.add(
        new Command.Test(
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, pool.truth().freeChlorineMgL())
                .with(Tested.CYANURIC_ACID, pool.truth().cyanuricAcidMgL())));
  }

  private boolean raised(Cause cause) {
    return state.alarms().containsKey(cause)
        && state.alarms().get(cause).state() == AlarmState.UNACKNOWLEDGED;
  }

  private List<ControlLevel> levels() {
    return events.stream()
        .filter(ScanEvent.ControlLevelChanged.class::isInstance)
        .map(e -> ((ScanEvent.ControlLevelChanged) e).to())
        .toList();
  }

  @Test
  void aPoolThatIsTestedStaysOnThePlanNightsIncluded() {
    usualPool();
    live(9);
    test();
    live(4 * 24);
    assertEquals(List.of(ControlLevel.PLAN), levels(), "reported once in four days");
    // Only that a pool which is new to the program is asked for a test early.
    assertTrue(
        Set.of(Cause.TEST_DUE).containsAll(state.alarms().keySet()), () -> "" + state.alarms());
  }

  /** The first day is nobody's fault; a test ends it within the alarm's own delay. */
  @Test
  void aPoolThatNobodyTestsIsToldWithinDays() {
    usualPool();
    live(23);
    assertFalse(out.permission().active().contains(Cause.ESTIMATE_UNSURE));
    assertFalse(out.permission().active().contains(Cause.CHLORINE_DOUBTFUL));
    boolean unsure = false;
    for (int hour = 0; hour < 10 * 24 && !unsure; hour++) {
      live(1);
      unsure = raised(Cause.ESTIMATE_UNSURE);
      if (unsure) {
        String detail = out.details().of(Cause.ESTIMATE_UNSURE).orElseThrow();
        assertTrue(detail.contains("no test was entered yet"), detail);
      }
    }
    assertTrue(unsure || raised(Cause.TEST_DUE), () -> "" + state.alarms());
    live(30);
    assertTrue(raised(Cause.TEST_DUE), () -> "" + state.alarms());
    test();
    live(0.1);
    assertFalse(out.permission().active().contains(Cause.ESTIMATE_UNSURE));
    assertFalse(out.permission().active().contains(Cause.CHLORINE_DOUBTFUL));
    assertFalse(out.permission().active().contains(Cause.TEST_DUE));
    assertEquals(ControlLevel.PLAN, state.control().level().settled());
  }

  @Test
  void aProbeThatIsOutIsOneAlarmNotTwo() {
    usualPool();
    live(9);
    test();
    live(3);
    pool.inject(
        new PlantFault.Unplugged(Role.ORP_MV, new PlantFault.Span(nowS, nowS + 5 * 86_400)));
    live(3);
    assertEquals(ControlLevel.LEARNED_DEMAND, state.control().level().settled());
    assertTrue(raised(Cause.ORP_FAILURE));
    assertTrue(raised(Cause.FEEDING_BLIND));
    live(40);
    assertEquals(ControlLevel.LEARNED_DEMAND, state.control().level().settled());
    assertFalse(raised(Cause.BLIND_FEED_SPENT), "it is rationed, not given and cut");
    assertFalse(raised(Cause.ESTIMATE_UNSURE));
    assertEquals(List.of(ControlLevel.PLAN, ControlLevel.LEARNED_DEMAND), levels());
  }

  /**
   * Two weeks without ORP and without a test: what is fed falls and ends, people are called with
   * what is left, and one test gives the budget back while the probe is still out.
   */
  @Test
  void aProbeThatStaysOutEndsWithoutFeedingAndOneTestEndsThat() {
    usualPool();
    live(9);
    test();
    live(3);
    double goodG = state.chlorine().account().given();
    pool.inject(
        new PlantFault.Unplugged(Role.ORP_MV, new PlantFault.Span(nowS, nowS + 50 * 86_400)));
    double lowDay = 0;
    for (int day = 1; day <= 20; day++) {
      live(24);
      lowDay = lowDay == 0 && raised(Cause.BLIND_FEED_LOW) ? day : lowDay;
    }
    double lowAfter = lowDay;
    assertTrue(lowDay >= 2 && lowDay <= 6, () -> "low after " + lowAfter + " days");
    assertTrue(raised(Cause.BLIND_FEED_SPENT), () -> "" + state.safety().blind());
    double blindMgL = (state.chlorine().account().given() - goodG) / 50;
    assertTrue(blindMgL <= 5.05 && blindMgL > 4.5, "fed " + blindMgL + " mg/L");
    assertEquals(0, out.outputs().chlorine());
    test();
    live(0.1);
    assertFalse(out.permission().active().contains(Cause.BLIND_FEED_SPENT));
    double beforeG = state.chlorine().account().given();
    live(24);
    assertTrue(state.chlorine().account().given() > beforeG + 10, "fed again");
  }

  /**
   * S12. An electrode that creeps up by 5 mV a day as the pool starves: what it alone says cannot
   * keep the feed low, and people are called before the water has had no chlorine for two days.
   */
  @Test
  void anElectrodeThatCreepsUpDoesNotStarveThePoolInSilence() {
    usualPool();
    live(9);
    test();
    live(2 * 24);
    double goneS = 0;
    double longestS = 0;
    PlantFault.Span month = new PlantFault.Span(nowS, nowS + 30 * 86_400);
    pool.inject(new PlantFault.Ramp(Role.ORP_MV, 150, 30 * 86_400, month));
    for (int hour = 0; hour < 30 * 24; hour++) {
      live(1);
      boolean called =
          raised(Cause.CHLORINE_DOUBTFUL)
              || raised(Cause.STARVED_BY_ORP)
              || raised(Cause.ESTIMATE_LOST)
              || raised(Cause.BLIND_FEED_LOW);
      goneS = pool.truth().freeChlorineMgL() < 0.5 && !called ? goneS + 3600 : 0;
      longestS = Math.max(longestS, goneS);
    }
    double silentS = longestS;
    assertTrue(silentS <= 48 * 3600, () -> "without chlorine and silent for " + silentS + " s");
  }

  @Test
  void anOutputThatCannotHoldTheTargetIsToldWithItsNumbers() {
    pool(5, new DoseCaps(5, 100, 1000, 1));
    live(9);
    test();
    live(20);
    assertFalse(raised(Cause.OUTPUT_TOO_SMALL), "not within a day");
    live(3 * 24);
    assertTrue(raised(Cause.OUTPUT_TOO_SMALL), () -> "" + state.control().capacity());
    assertTrue(pool.truth().freeChlorineMgL() < 2.5, () -> "" + pool.truth());
    assertEquals(1, out.demand().chlorineDuty(), 0.01, "all it can");
    ScanEvent.AlarmChanged event =
        events.stream()
            .filter(ScanEvent.AlarmChanged.class::isInstance)
            .map(ScanEvent.AlarmChanged.class::cast)
            .filter(e -> e.alarm() == Cause.OUTPUT_TOO_SMALL)
            .findFirst()
            .orElseThrow();
    String detail = event.detail().orElseThrow();
    assertTrue(
        detail.matches(
            "The pool uses about \\d+ g of chlorine a day at the target of 3.0 mg/L; the output"
                + " brings about \\d+ g: 5.0 g/h at full duty, in 10 h of pump a day, of which about"
                + " \\d+ % is believed to arrive. (\\d+ h of pump a day would do|24 h of pump would"
                + " not do: a larger output is wanted, or less use)."),
        detail);
  }

  /** 40 g a day are allowed, where the pool uses about 100. */
  @Test
  void aCapThatCannotHoldTheTargetIsNamed() {
    pool(20, new DoseCaps(20, 100, 40, 1));
    live(9);
    test();
    live(3 * 24);
    assertTrue(raised(Cause.OUTPUT_TOO_SMALL), () -> "" + state.control().capacity());
    String detail = out.details().of(Cause.OUTPUT_TOO_SMALL).orElseThrow();
    assertTrue(detail.contains("limits.chlorine_day allows 40 g"), detail);
    assertTrue(detail.contains("limits.chlorine_day would have to be "), detail);
  }

  @Test
  void anOutputThatSufficesIsNotTold() {
    usualPool();
    for (int week = 0; week < 2; week++) {
      live(9);
      test();
      live(7 * 24 - 9);
    }
    Set<Cause> told = Set.of(Cause.OUTPUT_TOO_SMALL, Cause.ESTIMATE_UNSURE);
    List<ScanEvent> alarms =
        events.stream()
            .filter(e -> e instanceof ScanEvent.AlarmChanged a && told.contains(a.alarm()))
            .toList();
    assertEquals(List.of(), alarms);
  }

  /**
   * A probe that shows 80 mV less from one moment on would have a lot fed. What its word alone
   * feeds beyond the demand is bounded, a test is asked for within a day, and after a while the new
   * level is taken for the electrode's own.
   */
  @Test
  void anElectrodeThatJumpsIsNotFollowed() {
    usualPool();
    live(9);
    test();
    live(3 * 24);
    test();
    live(24);
    pool.inject(
        new PlantFault.Offset(Role.ORP_MV, -80, new PlantFault.Span(nowS, nowS + 30 * 86_400)));
    double highestMgL = 0;
    boolean asked = false;
    for (int hour = 0; hour < 10 * 24; hour++) {
      live(1);
      highestMgL = Math.max(highestMgL, pool.truth().freeChlorineMgL());
      asked |=
          out.permission().active().stream()
              .anyMatch(
                  Set.of(Cause.ESTIMATE_LOST, Cause.TEST_DUE, Cause.ESTIMATE_UNSURE)::contains);
      assertTrue(asked || hour < 24, "nobody is asked in a day");
    }
    assertTrue(highestMgL < 6, "fed up to " + highestMgL + " mg/L");
    assertFalse(out.permission().active().contains(Cause.ESTIMATE_LOST), "for ever");
  }
}
