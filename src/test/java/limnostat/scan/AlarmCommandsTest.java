package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import limnostat.account.DoseTotals;
import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.safety.SafetyLimits;
import limnostat.safety.SetpointLimits;
import org.junit.jupiter.api.Test;

/**
 * Commands to alarms and set points: granted, or refused with the layer that stands against them.
 */
class AlarmCommandsTest {
  private static final ScanSettings POOL = TestSettings.pool();
  private ScanSettings settings = with(new SetpointLimits(0.5, 12 * 3600, 4 * 3600), Set.of());
  private ScanState state = ScanState.start(settings);
  private ScanOutcome out;

  private static ScanSettings with(SetpointLimits setpoints, Set<Cause> outOfService) {
    return new ScanSettings(
        POOL.measure(),
        POOL.estimate(),
        POOL.control(),
        POOL.limits(),
        POOL.chlorine(),
        POOL.acid(),
        setpoints,
        outOfService);
  }

  private String answer(String origin, Command command) {
    Command.Request request = new Command.Request(Optional.empty(), "any", origin, "{}", command);
    out =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                1, 1.7e9, true, Signals.of(Map.of()), Map.of(), false, true, List.of(request)));
    state = out.state();
    return out.events().stream()
        .filter(ScanEvent.Refused.class::isInstance)
        .map(e -> ((ScanEvent.Refused) e).reason())
        .findFirst()
        .orElse("accepted");
  }

  private String answer(Command command) {
    return answer("mqtt", command);
  }

  @Test
  void shelvedWithinTheBoundsAndNeverACriticalOne() {
    assertEquals("accepted", answer(new Command.Shelve("tank_low", 4 * 3600)));
    assertEquals(AlarmState.SHELVED, state.alarms().get(Cause.TANK_LOW).state());
    assertEquals(
        "the time 14401 s is above the installer's limit alarms.shelf_max = 14400 s",
        answer(new Command.Shelve("tank_low", 4 * 3600 + 1)));
    assertEquals(
        "the time 1 s is below the program's hard bound = 60 s",
        answer(new Command.Shelve("tank_low", 1)));
    assertEquals(
        "alarm output_not_driven is critical, and those are never shelved",
        answer(new Command.Shelve("output_not_driven", 600)));
    assertEquals("cause no_flow raises no alarm", answer(new Command.Shelve("no_flow", 600)));
    assertEquals(
        "alarm tank_low is shelved: it has nothing to acknowledge",
        answer(new Command.Acknowledge("tank_low")));
    assertEquals("accepted", answer(new Command.Unshelve("tank_low")));
    assertEquals("alarm tank_low is normal, not shelved", answer(new Command.Unshelve("tank_low")));
  }

  @Test
  void outOfServiceIsTheInstallersAndTheInterlockHolds() {
    settings = with(SetpointLimits.WIDEST, Set.of(Cause.FLOW_MISSING));
    for (int s = 0; s < 300; s++) {
      answer(new Command.Unshelve("tank_low"));
    }
    assertEquals(AlarmState.OUT_OF_SERVICE, state.alarms().get(Cause.FLOW_MISSING).state());
    assertTrue(out.permission().active().contains(Cause.FLOW_MISSING), "still counts");
    assertTrue(answer(new Command.Shelve("flow_missing", 600)).contains("out_of_service"));
  }

  @Test
  void aRefusalNamesTheLayer() {
    assertEquals(
        "duty 0.6 is above the installer's limit limits.manual_duty = 0.5",
        answer(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.6))));
    assertEquals(
        "free_chlorine_mg_l 6 mg/L is above the installer's limit limits.free_chlorine_high = 5 mg/L",
        answer(new Command.SetTarget(6)));
    assertEquals(
        "free_chlorine_mg_l 0.5 mg/L is below the program's hard bound = 1 mg/L",
        answer(new Command.SetTarget(0.5)));
    assertEquals(
        "max_hours 13 h is above the installer's limit limits.superchlorination_time = 12 h",
        answer(new Command.Superchlorinate(8, 13 * 3600)));
    assertEquals("accepted", answer(new Command.SetTarget(4)));
    assertTrue(
        out.events()
            .contains(new ScanEvent.SetpointChanged("target_free_chlorine_mg_l", 3, 4, "mqtt")));
  }

  /** S8: whatever is asked for, and whatever file the state wakes up under. */
  @Test
  void noSequenceLeadsPastTheLayerAbove() {
    Random random = new Random(8);
    for (int i = 0; i < 3000; i++) {
      if (random.nextInt(50) == 0) {
        double highMgL = 2 + 8 * random.nextDouble();
        ScanSettings other =
            with(
                new SetpointLimits(
                    random.nextDouble(),
                    3600 * (1 + 47 * random.nextDouble()),
                    3600 * (0.1 + 23.9 * random.nextDouble())),
                Set.of());
        settings =
            new ScanSettings(
                other.measure(),
                other.estimate(),
                other.control(),
                new SafetyLimits(800, highMgL, highMgL + 5, 6.8, 8, 10, 40, 60, 300, 3600),
                other.chlorine(),
                other.acid(),
                other.setpoints(),
                Set.of());
        state = state.resumed(settings);
      }
      answer(
          switch (random.nextInt(4)) {
            case 0 ->
                new Command.SetMode(Mode.MANUAL, OptionalDouble.of(2 * random.nextDouble() - 0.5));
            case 1 -> new Command.SetTarget(15 * random.nextDouble());
            case 2 ->
                new Command.Superchlorinate(
                    25 * random.nextDouble(), 3600 * 60 * random.nextDouble());
            default -> new Command.Shelve("tank_low", 100_000 * random.nextDouble());
          });
      int step = i;
      assertTrue(state.control().targetMgL() <= settings.limits().targetMaxMgL(), () -> "" + step);
      assertTrue(
          state.control().manualDuty() <= settings.setpoints().manualDutyMax(), () -> "" + step);
      assertTrue(
          state.control().superchlorination().levelMgL()
              <= settings.limits().superchlorinationMaxMgL(),
          () -> "" + step);
      assertTrue(
          state.control().superchlorination().leftS()
              <= settings.setpoints().superchlorinationMaxS(),
          () -> "" + step);
      state
          .alarms()
          .values()
          .forEach(
              a -> assertTrue(a.shelf().leftS() <= settings.setpoints().shelfMaxS(), "" + step));
    }
  }

  @Test
  void theSeasonBeginsAnewFromTheBoardOnly() {
    answer(new Command.Unshelve("tank_low"));
    DoseTotals totals = state.totals();
    state =
        state.withTotals(
            totals.step(new DoseTotals.Amounts(7, 70), totals.epochDay(), true, 1).totals());
    assertTrue(answer(new Command.ResetSeason()).contains("only by a person at the board"));
    assertTrue(answer("bench", new Command.ResetSeason()).contains("at the board"));
    assertEquals("accepted", answer("board", new Command.ResetSeason()));
    assertEquals(DoseTotals.Amounts.NONE, state.totals().season());
  }
}
