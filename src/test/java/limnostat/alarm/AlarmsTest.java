package limnostat.alarm;

import static limnostat.alarm.AlarmState.ACKNOWLEDGED;
import static limnostat.alarm.AlarmState.NORMAL;
import static limnostat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static limnostat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.alarm.Alarms.Transition;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import org.junit.jupiter.api.Test;

/** Transitions by ISA-18.2: raised, acknowledged, returned; delays of 60 s each way. */
class AlarmsTest {
  private static final Cause ALARM = Cause.ORP_HIGH;

  private Map<Cause, Alarms.Entry> entries = Map.of();
  private Annunciator annunciator = Annunciator.QUIET;
  private final List<Transition> transitions = new ArrayList<>();

  private AlarmState run(boolean active, int seconds) {
    for (int s = 0; s < seconds; s++) {
      step(active ? Set.of(ALARM) : Set.of(), 1);
    }
    return state();
  }

  private void step(Set<Cause> active, double elapsedS) {
    Alarms.Result result = Alarms.step(entries, annunciator, seen(active, elapsedS));
    entries = result.entries();
    annunciator = result.annunciator();
    transitions.addAll(result.transitions());
  }

  private static Alarms.Seen seen(Set<Cause> active, double elapsedS) {
    return new Alarms.Seen(active, active, Set.of(), elapsedS, elapsedS, 0, false);
  }

  private AlarmState state() {
    return entries.containsKey(ALARM) ? entries.get(ALARM).state() : NORMAL;
  }

  private AlarmState acknowledge() {
    assertTrue(Alarms.acknowledgeable(entries, ALARM));
    Alarms.Result result = Alarms.acknowledge(entries, annunciator, ALARM);
    entries = result.entries();
    transitions.addAll(result.transitions());
    return state();
  }

  @Test
  void raisedAfterTheDelay() {
    assertEquals(NORMAL, run(true, 59));
    assertEquals(UNACKNOWLEDGED, run(true, 1));
    assertEquals(UNACKNOWLEDGED, run(true, 100_000));
    assertEquals(List.of(new Transition(ALARM, NORMAL, UNACKNOWLEDGED)), transitions);
  }

  @Test
  void aPassingConditionIsNoAlarm() {
    for (int i = 0; i < 10; i++) {
      run(true, 59);
      run(false, 1);
    }
    assertEquals(List.of(), transitions);
    assertEquals(Map.of(), entries, "nothing is left behind");
  }

  @Test
  void acknowledgedThenReturnedIsNormal() {
    run(true, 60);
    assertEquals(ACKNOWLEDGED, acknowledge());
    assertFalse(Alarms.acknowledgeable(entries, ALARM));
    assertEquals(ACKNOWLEDGED, run(false, 59));
    assertEquals(NORMAL, run(false, 1));
    assertEquals(Map.of(), entries);
  }

  @Test
  void returnedUnacknowledgedWaitsForAPerson() {
    run(true, 60);
    assertEquals(RETURNED_UNACKNOWLEDGED, run(false, 60));
    assertEquals(RETURNED_UNACKNOWLEDGED, run(false, 100_000));
    assertEquals(NORMAL, acknowledge());
    assertFalse(Alarms.acknowledgeable(entries, ALARM));
    assertEquals(Map.of(), entries);
  }

  @Test
  void returnedUnacknowledgedIsRaisedAgain() {
    run(true, 60);
    run(false, 60);
    assertEquals(RETURNED_UNACKNOWLEDGED, run(true, 59));
    assertEquals(UNACKNOWLEDGED, run(true, 1));
  }

  @Test
  void flickerIsOneAlarm() {
    run(true, 60);
    for (int i = 0; i < 100; i++) {
      run(false, 59);
      run(true, 1);
    }
    assertEquals(1, transitions.size());
    acknowledge();
    for (int i = 0; i < 100; i++) {
      run(false, 59);
      run(true, 1);
    }
    assertEquals(ACKNOWLEDGED, state(), "a flicker does not call the person again");
  }

  @Test
  void acknowledgedInMidReturnStillReturns() {
    run(true, 60);
    run(false, 30);
    assertEquals(ACKNOWLEDGED, acknowledge());
    assertEquals(NORMAL, run(false, 60));
  }

  @Test
  void nothingToAcknowledgeInNormalNorWhileTheDelayRuns() {
    assertFalse(Alarms.acknowledgeable(entries, ALARM));
    run(true, 30);
    assertFalse(Alarms.acknowledgeable(entries, ALARM));
  }

  @Test
  void criticalIsRaisedAtOnceAndWhatHasWaitedAlready() {
    Set<Cause> waited =
        Set.of(
            Cause.BLIND_FEED_LOW,
            Cause.BLIND_FEED_SPENT,
            Cause.ORP_FALLING,
            Cause.CHLORINE_DOUBTFUL,
            Cause.CHLORINE_USED_UP,
            Cause.STARVED_BY_ORP,
            Cause.CELL_CURRENT_MISSING,
            Cause.CLOCK_NOT_TRUSTED,
            Cause.RESTART_LOOP);
    for (Cause cause : Cause.values()) {
      boolean raised =
          !Alarms.step(Map.of(), Annunciator.QUIET, seen(Set.of(cause), 0.1))
              .transitions()
              .isEmpty();
      assertEquals(
          cause.priority() == Priority.CRITICAL || waited.contains(cause), raised, cause.id());
    }
  }

  @Test
  void causesWithoutPriorityNeverAlarm() {
    for (Cause cause : Cause.values()) {
      boolean raised =
          !Alarms.step(Map.of(), Annunciator.QUIET, seen(Set.of(cause), 1e6))
              .transitions()
              .isEmpty();
      assertEquals(cause.priority() != Priority.NONE, raised, cause.id());
    }
  }

  @Test
  void alarmsDoNotTouchEachOther() {
    step(Set.of(ALARM, Cause.TANK_LOW), 60);
    assertEquals(ACKNOWLEDGED, acknowledge());
    assertEquals(UNACKNOWLEDGED, entries.get(Cause.TANK_LOW).state());
    step(Set.of(Cause.TANK_LOW), 60);
    assertEquals(NORMAL, state());
    assertEquals(UNACKNOWLEDGED, entries.get(Cause.TANK_LOW).state());
  }

  /** The state before is another scan's: it must stay as it was. */
  @Test
  void theStateBeforeIsNotChanged() {
    run(true, 60);
    Map<Cause, Alarms.Entry> before = Map.copyOf(entries);
    Map<Cause, Alarms.Entry> kept = entries;
    acknowledge();
    run(false, 60);
    assertEquals(before, kept);
  }
}
