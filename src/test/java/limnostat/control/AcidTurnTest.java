package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Target pH 7.4 in 50 m³; the dose is 11 mL a m³ and pH unit (water-chemistry section 8). */
class AcidTurnTest {
  private static final AcidTurn DUE = new AcidTurn(0, 2 * 3600);

  private static AcidTurn step(AcidTurn turn, double ph, double givenMl, double elapsedS) {
    return turn.step(ph, 7.4, 50, givenMl, elapsedS);
  }

  @Test
  void withinTheDeadbandNoTurnBegins() {
    assertFalse(step(DUE, 7.5, 0, 1).running());
    assertFalse(step(DUE, 6.0, 0, 1).running());
    assertTrue(step(DUE, 7.51, 0, 1).running());
  }

  @Test
  void withoutAFreshPhNoTurnBegins() {
    assertFalse(step(DUE, Double.NaN, 0, 1).running());
  }

  @Test
  void theDoseFollowsTheExcess() {
    assertEquals(11 * 50 * 0.4, step(DUE, 7.8, 0, 1).remainingMl(), 1e-9);
  }

  @Test
  void theFirstTurnWaitsItsIntervalToo() {
    AcidTurn turn = AcidTurn.IDLE;
    for (int s = 10; s < 7200; s += 10) {
      turn = step(turn, 8, 0, 10);
      assertFalse(turn.running(), s + " s");
    }
    assertTrue(step(turn, 8, 0, 10).running());
  }

  @Test
  void aTurnEndsWithItsDoseThenTheIntervalBegins() {
    AcidTurn turn = step(DUE, 7.6, 0, 1);
    double givenMl = 0;
    while (turn.running()) {
      givenMl += 4;
      turn = step(turn, 7.6, 4, 10);
    }
    assertEquals(11 * 50 * 0.2, givenMl, 4);
    assertEquals(AcidTurn.IDLE, turn);
    assertFalse(step(turn, 8, 0, 7199).running());
    assertTrue(step(turn, 8, 0, 7200).running());
  }

  /** What a relay gives after the turn's end, or in two scans at once, is never owed back. */
  @Test
  void moreThanTheDoseEndsTheTurn() {
    assertEquals(AcidTurn.IDLE, step(new AcidTurn(5, 100), 7.8, 500, 10));
  }

  @Test
  void aTurnThatCannotBeFinishedIsGivenUp() {
    AcidTurn turn = step(DUE, 7.8, 0, 1);
    int seconds = 0;
    while (turn.running()) {
      turn = step(turn, 7.8, 0, 10);
      seconds += 10;
    }
    assertEquals(3600, seconds);
    assertFalse(step(turn, 7.8, 0, 7000).running(), "and the next waits");
  }
}
