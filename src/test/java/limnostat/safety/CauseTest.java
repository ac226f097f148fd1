package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import limnostat.actuate.Output;
import org.junit.jupiter.api.Test;

/** What every row of the matrix must be. */
class CauseTest {
  @Test
  void idsAreTopicsAndUnlike() {
    for (Cause cause : Cause.values()) {
      assertTrue(cause.id().matches("[a-z]+(_[a-z]+)*"), cause.id());
      assertEquals(Optional.of(cause), Cause.ofId(cause.id()));
      assertFalse(cause.title().isBlank() || cause.advice().isBlank(), cause.id());
    }
    assertEquals(
        Cause.values().length,
        Arrays.stream(Cause.values()).map(Cause::id).collect(Collectors.toSet()).size());
    assertEquals(Optional.empty(), Cause.ofId("NO_FLOW"));
  }

  /** What may hurt people goes before what may wait. */
  @Test
  void whatSticksIsUrgentAndWhatIsWornCanWait() {
    assertEquals(Priority.CRITICAL, Cause.CELL_CURRENT_UNEXPECTED.priority());
    assertEquals(Priority.HIGH, Cause.FLOW_STUCK.priority());
    assertEquals(Priority.LOW, Cause.PROBE_WORN.priority());
    assertEquals(Priority.NONE, Cause.NO_FLOW.priority());
    assertEquals("critical", Priority.CRITICAL.key());
  }

  /** A row with neither effect nor alarm would have state for nothing. */
  @Test
  void everyRowDoesSomething() {
    for (Cause cause : Cause.values()) {
      assertTrue(
          cause.on(Output.CHLORINE) != Effect.NONE
              || cause.on(Output.ACID) != Effect.NONE
              || cause.priority() != Priority.NONE,
          cause.id());
    }
  }

  /** One memory serves both delays. */
  @Test
  void noRowHasADelayBothWays() {
    for (Cause cause : Cause.values()) {
      assertTrue(cause.delayS() == 0 || cause.delayOffS() == 0, cause.id());
      assertFalse(cause.latching() && cause.delayOffS() > 0, cause.id());
    }
  }

  /** A latch that nobody is told of would stop the plant for ever. */
  @Test
  void whatLatchesIsAnAlarm() {
    for (Cause cause : Cause.values()) {
      if (cause.latching()) {
        assertNotEquals(Priority.NONE, cause.priority(), cause.id());
      }
    }
  }

  /** The program's own bounds leave room for the installer's limits and each other. */
  @Test
  void hardBoundsAreInOrder() {
    assertTrue(HardBounds.TARGET_MG_L < HardBounds.FREE_CHLORINE_HIGH_MG_L);
    assertTrue(HardBounds.FREE_CHLORINE_HIGH_MG_L < HardBounds.SUPERCHLORINATION_MG_L);
    assertTrue(HardBounds.CHLORINE_HOUR_MG_L <= HardBounds.CHLORINE_DAY_MG_L);
    assertTrue(HardBounds.PH_DOSING_MIN < HardBounds.PH_DOSING_MAX);
    assertTrue(HardBounds.SCAN_PERIOD_MAX_S < HardBounds.SCAN_GAP_S);
    assertTrue(HardBounds.BLIND_FEED_MG_L <= HardBounds.FREE_CHLORINE_HIGH_MG_L);
    assertTrue(HardBounds.SEPARATION_MIN_S >= 60);
  }
}
