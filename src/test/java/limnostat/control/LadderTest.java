package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
    assertEquals(Rung.NONE, Rung.lower(Rung.NONE, Rung.ORP_ALONE));
  }

  @Test
  void theFirstRungIsToldAtOnceAndAnotherOnceItHasLasted() {
    assertEquals(Rung.PLAN, pass(Rung.PLAN, 1));
    assertEquals(Rung.PLAN, pass(Rung.LEARNED_DEMAND, 59), "bad samples for a minute");
    assertEquals(Rung.PLAN, pass(Rung.PLAN, 1));
    assertEquals(Rung.PLAN, pass(Rung.LEARNED_DEMAND, 59), "it began anew");
    assertEquals(Rung.LEARNED_DEMAND, pass(Rung.LEARNED_DEMAND, 1));
    assertEquals(Rung.NONE, pass(Rung.NONE, 1), "a person's choice is no flicker");
    assertEquals(Rung.ORP_ALONE, pass(Rung.ORP_ALONE, 1));
  }

  @Test
  void aDayOnOrpAloneIsLong() {
    pass(Rung.ORP_ALONE, 86_399);
    assertFalse(ladder.longUnsure());
    pass(Rung.ORP_ALONE, 1);
    assertTrue(ladder.longUnsure());
    pass(Rung.PLAN, 60);
    assertFalse(ladder.longUnsure(), "a test has made it sure");
  }

  /** What is out has an alarm of its own; meanwhile nothing tells how sure the estimate is. */
  @Test
  void belowOrpAloneTheTimeStandsStill() {
    pass(Rung.ORP_ALONE, 80_000);
    double forS = ladder.unsure().forS();
    pass(Rung.LEARNED_DEMAND, 60);
    pass(Rung.LEARNED_DEMAND, 86_400);
    pass(Rung.NONE, 86_400);
    assertFalse(ladder.longUnsure());
    assertEquals(forS, ladder.unsure().forS(), 60);
  }
}
