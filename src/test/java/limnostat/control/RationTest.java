package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class RationTest {
  /** Given out by the minute, as the law does: the demand, and no more than the ration. */
  private static double daysByMinute(double leftMgL, double endMgL, double demandMgLDay) {
    double left = leftMgL;
    int minutes = 0;
    while (left > endMgL) {
      left -= Math.min(demandMgLDay, Ration.mgLDay(left)) / 1440;
      minutes++;
    }
    return minutes / 1440.0;
  }

  @Test
  void itLastsForAsLongAsItIsGivenOut() {
    for (double demand : new double[] {0.3, 1, 2, 4, 15}) {
      for (double left : new double[] {0.3, 1, 3, 5, 8}) {
        assertEquals(
            daysByMinute(left, 0.25, demand),
            Ration.lastsDays(left, 0.25, demand),
            0.02,
            left + " mg/L, " + demand + " mg/L a day");
      }
    }
    assertEquals(0, Ration.lastsDays(0.2, 0.25, 2));
  }

  @Test
  void itFallsWithWhatIsLeftAndNeverEndsAtOnce() {
    double before = Double.POSITIVE_INFINITY;
    for (double left = 8; left > 0.01; left *= 0.9) {
      double now = Ration.mgLDay(left);
      assertTrue(now < before && now > 0 && now < left, "left " + left);
      before = now;
    }
  }
}
