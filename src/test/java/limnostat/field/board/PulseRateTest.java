package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class PulseRateTest {
  /** Ten pulses a litre: one pulse a second is 6 L/min. */
  private final PulseRate rate = new PulseRate(10);

  @Test
  void hasNoFlowBeforeItsFirstInterval() {
    assertEquals(OptionalDouble.empty(), rate.update(7, 100));
    assertEquals(OptionalDouble.of(18), rate.update(10, 101));
  }

  @Test
  void countsOverTheTimeThatPassed() {
    rate.update(0, 0);
    // 40 pulses are 4 L, in 2 s
    assertEquals(120, rate.update(40, 2).orElseThrow(), 1e-9);
  }

  @Test
  void readsASlowMeterRightBetweenItsPulses() {
    rate.update(0, 0);
    // a pulse every 4 s is 1.5 L/min
    rate.update(1, 4);
    for (int s = 5; s < 8; s++) {
      assertEquals(1.5, rate.update(1, s).orElseThrow(), 1e-9);
    }
    assertEquals(1.5, rate.update(2, 8).orElseThrow(), 1e-9);
  }

  @Test
  void fallsToZeroWhenPulsesStop() {
    rate.update(0, 0);
    rate.update(100, 1);
    assertEquals(6, rate.update(100, 2).orElseThrow(), 1e-9, "at most one pulse in 1 s");
    assertEquals(1, rate.update(100, 7).orElseThrow(), 1e-9, "at most one pulse in 6 s");
    assertEquals(0, rate.update(100, 61).orElseThrow());
  }

  @Test
  void isZeroFromTheStartWithoutPulses() {
    rate.update(0, 0);
    assertEquals(OptionalDouble.of(0), rate.update(0, 1));
  }

  @Test
  void keepsItsReadingWhenNoTimePassed() {
    rate.update(0, 0);
    OptionalDouble first = rate.update(10, 1);
    assertEquals(first, rate.update(12, 1));
    assertTrue(rate.update(12, 2).orElseThrow() > 0, "pulses of the empty interval are kept");
  }
}
