package limnostat.account;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DoseAccountTest {
  private static final DoseCaps CAPS = new DoseCaps(20, 15, 150, 1);

  /**
   * The windows are never smaller than an exact count, nor larger than one over a window a minute
   * and a scan longer.
   */
  @Test
  void windowsCoverAnExactCount() {
    Random random = new Random(5);
    for (int run = 0; run < 20; run++) {
      DoseAccount account = DoseAccount.empty();
      List<double[]> doses = new ArrayList<>();
      double t = 0;
      for (int i = 0; i < 4000; i++) {
        double dt = random.nextInt(50) == 0 ? 3600 * random.nextDouble() : 60 * random.nextDouble();
        double g = random.nextInt(3) == 0 ? random.nextDouble() : 0;
        t += dt;
        doses.add(new double[] {t, g});
        account = account.given(g, dt);
        assertBetween(
            exact(doses, t - 3600), account.lastHour(), exact(doses, t - 3660 - dt), run, i);
        assertBetween(
            exact(doses, t - 86_400), account.lastDay(), exact(doses, t - 86_460 - dt), run, i);
      }
    }
  }

  private static void assertBetween(double low, double value, double high, int run, int i) {
    assertTrue(
        value >= low - 1e-9 && value <= high + 1e-9,
        () -> "run " + run + ", step " + i + ": " + value + " not in " + low + " to " + high);
  }

  private static double exact(List<double[]> doses, double after) {
    double sum = 0;
    for (int i = doses.size() - 1; i >= 0 && doses.get(i)[0] > after; i--) {
      sum += doses.get(i)[1];
    }
    return sum;
  }

  @Test
  void whatWasBookedAndNotProvedCountsAsGiven() {
    DoseAccount account = DoseAccount.empty().given(2, 60).book(CAPS, true);
    double booked = account.requested();
    DoseAccount restored = account.resumed(false).unproven(booked);
    assertTrue(restored.given() >= booked, restored.toString());
    assertEquals(booked, restored.lastHour(), 1e-12);
    assertEquals(restored.given(), restored.requested(), "an old block is not drawn on again");
  }

  /** The block that was open at an orderly stop is neither counted nor lost. */
  @Test
  void afterAnOrderlyStopTheOpenBlockIsDrawnOnFurther() {
    DoseAccount stopped = DoseAccount.empty().book(CAPS, true).given(CAPS.perScan(), 60);
    double booked = stopped.requested();
    DoseAccount resumed = stopped.resumed(true).unproven(booked);
    assertEquals(stopped, resumed);
    assertEquals(booked, resumed.book(CAPS, true).requested(), "no new block is needed");
    DoseAccount crashed = resumed.resumed(false).unproven(booked);
    assertEquals(booked, crashed.lastHour(), 1e-12, "it still counts after a crash");
    double later = booked + CAPS.block();
    assertEquals(later, resumed.unproven(later).lastHour(), 1e-12, "booked after that stop");
  }

  @Test
  void anUnknownAccountIsFullForADay() {
    DoseAccount known = DoseAccount.empty().given(500, 3600);
    DoseAccount account = known.unknown(CAPS);
    assertEquals(500 + CAPS.dayCap(), account.given(), "the total goes on");
    assertTrue(account.hourReached(CAPS));
    assertTrue(account.dayReached(CAPS));
    assertFalse(account.given(0, 3700).hourReached(CAPS));
    assertTrue(account.given(0, 86_000).dayReached(CAPS));
    assertFalse(account.given(0, 86_500).dayReached(CAPS));
  }

  @Test
  void aBlockIsAskedForBeforeTheLastIsUsedUp() {
    DoseAccount account = DoseAccount.empty();
    assertEquals(0, account.book(CAPS, false).requested());
    account = account.book(CAPS, true);
    for (int i = 0; i < 1000; i++) {
      account = account.given(CAPS.amount(1, 10), 10).book(CAPS, true);
      assertTrue(account.requested() - account.given() >= CAPS.perScan(), "step " + i);
    }
  }
}
