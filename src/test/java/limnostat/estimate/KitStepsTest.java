package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class KitStepsTest {
  private static KitSteps of(double... readings) {
    KitSteps steps = KitSteps.UNKNOWN;
    for (double reading : readings) {
      steps = steps.with(reading);
    }
    return steps;
  }

  @Test
  void theStepIsTheLargestThatAllReadingsAreMultiplesOf() {
    assertEquals(1, of(3).stepMgL());
    assertEquals(1, of(0, 5, 10).stepMgL());
    assertEquals(0.5, of(3, 1.5).stepMgL());
    assertEquals(0.25, of(3, 0.75).stepMgL());
    assertEquals(0.1, of(3, 2.8, 0.9).stepMgL());
    assertEquals(0.01, of(1.234567).stepMgL(), "finer than any kit");
  }

  /** 0.1 + 0.2 is no exact 0.3. */
  @Test
  void roundingMakesNoFinerKit() {
    double reading = 0;
    KitSteps steps = KitSteps.UNKNOWN;
    for (int i = 0; i < 100; i++) {
      reading += 0.1;
      steps = steps.with(reading);
    }
    assertEquals(0.1, steps.stepMgL(), 1e-12);
  }

  @Test
  void aKitNeverGetsCoarserAgain() {
    Random random = new Random(3);
    KitSteps steps = KitSteps.UNKNOWN;
    for (int i = 0; i < 200; i++) {
      KitSteps next = steps.with(Math.rint(100 * random.nextDouble()) / 10);
      assertTrue(next.stepMgL() <= steps.stepMgL(), "reading " + i);
      steps = next;
    }
    assertEquals(steps, steps.with(3));
  }

  @Test
  void aCoarserKitScattersMoreAndEveryKitScatters() {
    for (double read = 0; read <= 10; read += 0.5) {
      double whole = of(3).sdMgL(read);
      double half = of(3, 1.5).sdMgL(read);
      double fine = of(2.8).sdMgL(read);
      assertTrue(whole >= half && half >= fine && fine > 0.1, read + " mg/L");
    }
    assertTrue(of(3).sdMgL(6) > of(1.5).sdMgL(6) && of(1.5).sdMgL(6) > of(2.8).sdMgL(6));
  }
}
