package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.measure.Signals;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Test;

class ProgramTest {
  private final Program program = new Program(TestSettings.pool());
  private double nowS = 1_782_864_000;

  private void live(double days, Optional<KitTest> test) {
    for (int hour = 0; hour < 24 * days; hour++, nowS += 3600) {
      program.step(nowS, 3600, Signals.of(Map.of()), hour == 0 ? test : Optional.empty());
    }
  }

  /** What an owner who answers goes by. */
  @Test
  void theProgramAsksForATestOnceItIsUnsureAndNotAfterOne() {
    live(1, Optional.empty());
    assertFalse(program.testDue());
    live(2, Optional.empty());
    assertTrue(program.testDue());
    live(1, Optional.of(new KitTest(3, 7.4, OptionalDouble.of(30))));
    assertFalse(program.testDue());
  }
}
