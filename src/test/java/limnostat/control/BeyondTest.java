package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A budget of 5 mg/L, an output of 0.4 mg/L an hour. */
class BeyondTest {
  private static final double BUDGET_MG_L = 5;
  private static final double RISE_MG_L_H = 0.4;

  @Test
  void whatDosesAndTestsAccountForIsNotCounted() {
    Beyond beyond = Beyond.NONE;
    for (int i = 0; i < 10_000; i++) {
      beyond = beyond.step(0.01, 0.01, BUDGET_MG_L, 60);
    }
    assertEquals(Beyond.NONE, beyond);
  }

  /** An electrode that calls for all there is, for ever: the excess ends at the budget. */
  @Test
  void whatIsFedBeyondThatIsTheBudgetAtMost() {
    for (long seed = 1; seed <= 20; seed++) {
      Random random = new Random(seed);
      Beyond beyond = Beyond.NONE;
      double accountedMgL = 0;
      double fedMgL = 0;
      double calmS = 0;
      for (int minute = 0; minute < 10_000; minute++) {
        double accounted = 0.3 * random.nextDouble() * RISE_MG_L_H / 60;
        double most = beyond.dutyMax(BUDGET_MG_L, RISE_MG_L_H) * RISE_MG_L_H / 60;
        double calls = random.nextInt(5) == 0 ? 0 : 1;
        double fed = Math.min(calls * RISE_MG_L_H / 60, accounted + most);
        beyond = beyond.step(fed, accounted, BUDGET_MG_L, 60);
        accountedMgL += accounted;
        fedMgL += fed;
        calmS += calls == 0 ? 60 : 0;
        double beyondMgL = fedMgL - accountedMgL;
        double backMgL = BUDGET_MG_L * calmS / 86_400;
        assertTrue(
            beyondMgL <= BUDGET_MG_L + backMgL + 1e-9,
            "seed " + seed + ", minute " + minute + ": " + beyondMgL + " mg/L beyond");
      }
    }
  }

  /** By less and less, and back within days: never all at once. */
  @Test
  void theExcessFallsAndComesBack() {
    Beyond beyond = Beyond.NONE;
    double before = beyond.dutyMax(BUDGET_MG_L, RISE_MG_L_H);
    for (double fed = 0; fed < BUDGET_MG_L; fed += 0.5) {
      double now = new Beyond(fed).dutyMax(BUDGET_MG_L, RISE_MG_L_H);
      assertTrue(now <= before && now > 0, "fed " + fed);
      before = now;
    }
    assertEquals(0, new Beyond(BUDGET_MG_L).dutyMax(BUDGET_MG_L, RISE_MG_L_H));
    assertTrue(new Beyond(BUDGET_MG_L).spent(BUDGET_MG_L));
    Beyond back = new Beyond(BUDGET_MG_L);
    for (int day = 0; day < 10; day++) {
      back = back.step(0, 0, BUDGET_MG_L, 86_400);
    }
    assertEquals(Beyond.NONE, back);
  }
}
