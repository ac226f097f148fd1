package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class SettledLevelTest {
  private SettledLevel level = SettledLevel.START;

  private ControlLevel pass(ControlLevel now, double seconds) {
    for (double s = 0; s < seconds; s++) {
      level = level.step(now, 1);
    }
    return level.settled();
  }

  @Test
  void theOrderIsFromTheBestDown() {
    assertEquals(
        ControlLevel.LEARNED_DEMAND,
        ControlLevel.lower(ControlLevel.PLAN, ControlLevel.LEARNED_DEMAND));
    assertEquals(
        ControlLevel.NONE, ControlLevel.lower(ControlLevel.NONE, ControlLevel.LEARNED_DEMAND));
  }

  @Test
  void theFirstRungIsToldAtOnceAndAnotherOnceItHasLasted() {
    assertEquals(ControlLevel.PLAN, pass(ControlLevel.PLAN, 1));
    assertEquals(
        ControlLevel.PLAN, pass(ControlLevel.LEARNED_DEMAND, 59), "bad samples for a minute");
    assertEquals(ControlLevel.PLAN, pass(ControlLevel.PLAN, 1));
    assertEquals(ControlLevel.PLAN, pass(ControlLevel.LEARNED_DEMAND, 59), "it began anew");
    assertEquals(ControlLevel.LEARNED_DEMAND, pass(ControlLevel.LEARNED_DEMAND, 1));
    assertEquals(ControlLevel.NONE, pass(ControlLevel.NONE, 1), "a person's choice is no flicker");
    assertEquals(ControlLevel.LEARNED_DEMAND, pass(ControlLevel.LEARNED_DEMAND, 1));
  }
}
