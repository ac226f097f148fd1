package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class LadderTest {
  private Ladder ladder = Ladder.START;

  private Rung pass(Rung now, double seconds) {
    for (double s = 0; s < seconds; s++) {
      ladder = ladder.step(now, 1);
    }
    return ladder.rung();
  }

  @Test
  void theOrderIsFromTheBestDown() {
    assertEquals(Rung.LEARNED_DEMAND, Rung.lower(Rung.PLAN, Rung.LEARNED_DEMAND));
    assertEquals(Rung.NONE, Rung.lower(Rung.NONE, Rung.LEARNED_DEMAND));
  }

  @Test
  void theFirstRungIsToldAtOnceAndAnotherOnceItHasLasted() {
    assertEquals(Rung.PLAN, pass(Rung.PLAN, 1));
    assertEquals(Rung.PLAN, pass(Rung.LEARNED_DEMAND, 59), "bad samples for a minute");
    assertEquals(Rung.PLAN, pass(Rung.PLAN, 1));
    assertEquals(Rung.PLAN, pass(Rung.LEARNED_DEMAND, 59), "it began anew");
    assertEquals(Rung.LEARNED_DEMAND, pass(Rung.LEARNED_DEMAND, 1));
    assertEquals(Rung.NONE, pass(Rung.NONE, 1), "a person's choice is no flicker");
    assertEquals(Rung.LEARNED_DEMAND, pass(Rung.LEARNED_DEMAND, 1));
  }
}
