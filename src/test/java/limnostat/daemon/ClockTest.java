package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ClockTest {
  @Test
  void aSimulatedClockMovesOnlyWhenItIsMoved() {
    Clock.Simulated clock = new Clock.Simulated(1000);
    assertEquals(0, clock.monotonicS());
    clock.advance(2.5);
    assertEquals(2.5, clock.monotonicS());
    assertEquals(1002.5, clock.unixTimeS());
    assertTrue(clock.trusted());
  }

  /** Limits live by it: both are seconds, one never goes back, the other is the wall's. */
  @Test
  void theSystemsClock() {
    Clock clock = new Clock.OfSystem();
    double before = clock.monotonicS();
    for (int i = 0; i < 1000; i++) {
      double now = clock.monotonicS();
      assertTrue(now >= before);
      before = now;
    }
    assertEquals(System.currentTimeMillis() / 1e3, clock.unixTimeS(), 5);
    assertEquals(System.nanoTime() / 1e9, clock.monotonicS(), 5);
  }
}
