package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LeakyTimerTest {
  private LeakyTimer lasting = LeakyTimer.NOT;

  private void pass(boolean holds, double seconds) {
    for (double s = 0; s < seconds; s += 60) {
      lasting = lasting.step(holds, 60);
    }
  }

  @Test
  void aDayIsEnough() {
    pass(true, 86_400 - 60);
    assertFalse(lasting.enough());
    pass(true, 60);
    assertTrue(lasting.enough());
  }

  /** An hour of it, then two without: 3600 s gained and 1800 s lost each time. */
  @Test
  void whatComesAndGoesIsToldInTheEnd() {
    int times = 0;
    for (pass(true, 3600); !lasting.enough(); pass(true, 3600)) {
      pass(false, 2 * 3600);
      times++;
      assertTrue(times < 100, "never told");
    }
    assertEquals((86_400 - 3600) / 1800, times);
  }

  @Test
  void itDrainsAtAQuarterOfTheSpeedAndNotBelowNothing() {
    pass(true, 3600);
    pass(false, 3600);
    assertEquals(2700, lasting.forS(), 1e-9);
    pass(false, 86_400);
    assertEquals(0, lasting.forS());
  }

  /** A winter without the program is no day of it. */
  @Test
  void anOutageCountsForAMinute() {
    lasting = lasting.step(true, 1e7);
    assertEquals(60, lasting.forS());
  }
}
