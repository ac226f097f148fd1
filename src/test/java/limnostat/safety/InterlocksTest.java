package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.safety.Interlocks.Permission;
import org.junit.jupiter.api.Test;

class InterlocksTest {
  private final Seen seen = new Seen();
  private SafetyState state = SafetyState.START;

  private Permission step(double elapsedS) {
    Interlocks.Result result = Interlocks.step(Seen.LIMITS, state, seen.observed(), elapsedS);
    state = result.state();
    return result.permission();
  }

  private void settle() {
    step(1000);
    assertEquals(Set.of(), step(1).active());
  }

  @Test
  void afterAStartTheSeparationHasToPassFirst() {
    assertEquals(Set.of(Cause.ACID_RECENT, Cause.CHLORINE_RECENT), step(299).active());
    assertEquals(Set.of(), step(1).active());
  }

  @Test
  void theSeparationRunsFromTheLastTimeOn() {
    settle();
    seen.chlorine = 1;
    assertEquals(Set.of(Cause.CHLORINE_RECENT), step(1000).active());
    assertTrue(step(1000).held(Output.ACID), "on is on, however long");
    seen.chlorine = 0;
    assertTrue(step(299).held(Output.ACID));
    assertFalse(step(1).held(Output.ACID));
  }

  @Test
  void aSmallProportionalOutputIsOnToo() {
    settle();
    seen.acid = 1e-9;
    assertTrue(step(1).held(Output.CHLORINE));
  }

  @Test
  void aDelayedCauseCountsOnceItsDelayHasRunWithoutABreak() {
    settle();
    seen.chlorine = 1;
    seen.cellA = OptionalDouble.of(0);
    assertFalse(step(359).active().contains(Cause.CELL_CURRENT_MISSING));
    seen.cellA = OptionalDouble.of(5);
    step(1);
    seen.cellA = OptionalDouble.of(0);
    assertFalse(step(359).active().contains(Cause.CELL_CURRENT_MISSING), "the delay began anew");
    assertTrue(step(1).active().contains(Cause.CELL_CURRENT_MISSING));
    seen.cellA = OptionalDouble.of(5);
    assertFalse(step(1).active().contains(Cause.CELL_CURRENT_MISSING), "it does not latch");
    assertEquals(0, state.pendingS().size());
  }

  /** Cells pause for 1 to 5 minutes when they reverse, and a turn may end within such a pause. */
  @Test
  void aCurrentIsMissedByTheTimeForWhichTheOutputIsOn() {
    settle();
    seen.cellA = OptionalDouble.of(0);
    for (int turn = 0; turn < 3; turn++) {
      seen.chlorine = 1;
      assertFalse(step(119).active().contains(Cause.CELL_CURRENT_MISSING), "turn " + turn);
      seen.chlorine = 0;
      assertFalse(step(600).active().contains(Cause.CELL_CURRENT_MISSING), "it rests");
    }
    seen.chlorine = 1;
    assertTrue(step(3).active().contains(Cause.CELL_CURRENT_MISSING));
    seen.chlorine = 0;
    assertTrue(step(1).active().contains(Cause.CELL_CURRENT_MISSING), "no turn has shown one yet");
    seen.chlorine = 1;
    seen.cellA = OptionalDouble.of(5);
    assertFalse(step(1).active().contains(Cause.CELL_CURRENT_MISSING));
  }

  @Test
  void aSwitchThatBobsHoldsUntilItHasBeenStill() {
    settle();
    seen.tankLow = true;
    assertTrue(step(1).held(Output.CHLORINE), "at once");
    seen.tankLow = false;
    assertTrue(step(59).held(Output.CHLORINE));
    seen.tankLow = true;
    step(1);
    seen.tankLow = false;
    assertTrue(step(59).held(Output.CHLORINE), "the delay began anew");
    assertFalse(step(1).held(Output.CHLORINE));
    assertEquals(0, state.pendingS().size());
  }

  @Test
  void aLatchedCauseIsReleasedByAPersonOnlyAndOnlyOnceItIsGone() {
    Cause stuck = Cause.CELL_CURRENT_UNEXPECTED;
    settle();
    seen.cellA = OptionalDouble.of(5);
    assertFalse(step(14).active().contains(stuck));
    assertFalse(Interlocks.resettable(state, stuck), "not active yet");
    Permission tripped = step(1);
    assertTrue(tripped.held(Output.CHLORINE) && tripped.held(Output.ACID));
    assertFalse(Interlocks.resettable(state, stuck), "still there");
    seen.cellA = OptionalDouble.of(0);
    for (int hour = 0; hour < 100; hour++) {
      assertTrue(step(3600).active().contains(stuck), "hour " + hour);
    }
    state = state.resumed(RunHealth.Owed.CRASH);
    assertTrue(step(1).active().contains(stuck), "a restart is no reset");
    assertTrue(Interlocks.resettable(state, stuck));
    state = Interlocks.reset(state, stuck);
    assertFalse(step(1).active().contains(stuck));
  }

  /** Nobody has looked yet in the new process, so nobody knows that it is gone. */
  @Test
  void afterARestartALatchedCauseCannotBeResetBeforeAScan() {
    Cause stuck = Cause.CELL_CURRENT_UNEXPECTED;
    settle();
    seen.cellA = OptionalDouble.of(5);
    step(15);
    seen.cellA = OptionalDouble.of(0);
    step(1);
    assertTrue(Interlocks.resettable(state, stuck));
    state = state.resumed(RunHealth.Owed.NOTHING);
    assertFalse(Interlocks.resettable(state, stuck));
    step(1);
    assertTrue(Interlocks.resettable(state, stuck));
  }

  /** 3 minutes with the pump at rest; then it stays until flow was seen to stop. */
  @Test
  void flowThatNeverStopsIsNotTrusted() {
    Cause stuck = Cause.FLOW_STUCK;
    settle();
    seen.pumpRests = true;
    assertFalse(step(170).active().contains(stuck));
    seen.pumpRests = false;
    step(1);
    seen.pumpRests = true;
    assertFalse(step(170).active().contains(stuck), "the time begins anew with the pump");
    Permission tripped = step(10);
    assertTrue(tripped.held(Output.CHLORINE) && tripped.held(Output.ACID));
    seen.pumpRests = false;
    assertTrue(step(86_400).active().contains(stuck));
    state = state.resumed(RunHealth.Owed.NOTHING);
    assertTrue(step(1).active().contains(stuck), "a restart proves nothing");
    seen.flow = false;
    seen.flowMissing = Optional.of("cut");
    assertTrue(step(1).active().contains(stuck), "nor does a signal that is gone");
    seen.flowMissing = Optional.empty();
    assertFalse(step(1).active().contains(stuck));
    seen.flow = true;
    assertFalse(step(1).active().contains(stuck));
  }

  @Test
  void afterAResetTheSameFaultTripsAgain() {
    settle();
    seen.cellA = OptionalDouble.of(5);
    step(15);
    seen.cellA = OptionalDouble.of(0);
    step(1);
    state = Interlocks.reset(state, Cause.CELL_CURRENT_UNEXPECTED);
    seen.cellA = OptionalDouble.of(5);
    step(14);
    assertTrue(step(1).active().contains(Cause.CELL_CURRENT_UNEXPECTED));
  }

  @Test
  void onlyLatchingCausesCanBeReset() {
    seen.off = true;
    step(1);
    seen.off = false;
    for (Cause cause : Cause.values()) {
      assertFalse(Interlocks.resettable(state, cause), cause.id());
    }
  }

  @Test
  void theMostSevereEffectHolds() {
    assertEquals(Effect.NONE, Interlocks.effect(Set.of(), Output.CHLORINE));
    assertEquals(
        Effect.LIMIT,
        Interlocks.effect(Set.of(Cause.ORP_FAILURE, Cause.LEDGER_FAILING), Output.CHLORINE));
    assertEquals(
        Effect.INHIBIT,
        Interlocks.effect(Set.of(Cause.ORP_FAILURE, Cause.NO_FLOW), Output.CHLORINE));
  }

  @Test
  void trimOnlyTakesAway() {
    for (Effect effect : Effect.values()) {
      Permission permission = new Permission(Set.of(), effect, effect);
      for (double duty = 0; duty <= 1; duty += 0.125) {
        for (double fallback = 0; fallback <= 1; fallback += 0.125) {
          double left = permission.trim(Output.CHLORINE, duty, fallback);
          assertTrue(left >= 0 && left <= duty);
          assertEquals(
              switch (effect) {
                case NONE -> duty;
                case LIMIT -> Math.min(duty, fallback);
                case INHIBIT -> 0;
              },
              left);
        }
      }
    }
  }

  @Test
  void theVetoIsTheLastWord() {
    Permission free = new Permission(Set.of(), Effect.NONE, Effect.LIMIT);
    assertEquals(new Outputs(1, 0, true), Interlocks.veto(free, 1, 1, true), "never both");
    assertEquals(new Outputs(0, 1, false), Interlocks.veto(free, 0, 1, false));
    Permission chlorineHeld = new Permission(Set.of(), Effect.INHIBIT, Effect.NONE);
    assertEquals(new Outputs(0, 1, true), Interlocks.veto(chlorineHeld, 1, 1, true));
    Permission held = new Permission(Set.of(), Effect.INHIBIT, Effect.INHIBIT);
    assertEquals(new Outputs(0, 0, true), Interlocks.veto(held, 1, 1, true));
  }
}
