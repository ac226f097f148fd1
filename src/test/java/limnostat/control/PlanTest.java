package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import limnostat.control.ControlSettings.PiTuning;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;
import org.junit.jupiter.api.Test;

class PlanTest {
  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z

  private static double duty(Outlook outlook, double targetMgL, PumpWindow... windows) {
    ControlSettings settings =
        new ControlSettings(
            targetMgL, 7.4, ZoneOffset.UTC, List.of(windows), new PiTuning(0.02, 14_400));
    return Plan.duty(settings, outlook, targetMgL, 0.4, at -> Hour.MEAN, MIDNIGHT);
  }

  /**
   * By hand: 2.4 mg/L a day lost whatever the level, 0.4 mg/L an hour at full duty: a quarter of
   * the time.
   */
  @Test
  void atTheTargetItMakesUpForTheLoss() {
    Outlook steady = new Outlook(3, 0, 2.4 * 3.1 / 3, 0, 0, 0, 1);
    assertEquals(0.25, duty(steady, 3), 0.01);
  }

  /** The same in eight hours of pump takes three times the duty. */
  @Test
  void itFeedsInThePumpsHours() {
    Outlook steady = new Outlook(3, 0, 2.4, 0, 0, 0, 1);
    double always = duty(steady, 3);
    double inHours = duty(steady, 3, new PumpWindow(8 * 3600, 16 * 3600));
    assertEquals(3 * always, inHours, 0.2);
  }

  @Test
  void anOutputThatGivesHalfGetsTwiceTheDuty() {
    Outlook whole = new Outlook(3, 0.2, 0.5, 0, 0.2, 0, 1);
    Outlook half = new Outlook(3, 0.2, 0.5, 0, 0.2, 0, 0.5);
    assertEquals(2 * duty(whole, 3), duty(half, 3), 0.01);
  }

  @Test
  void farAboveTheTargetItFeedsNothingAndFarBelowAllItCan() {
    assertEquals(0, duty(new Outlook(8, 0.2, 0.5, 0, 0.2, 0, 1), 3));
    assertEquals(1, duty(new Outlook(0.2, 3, 5, 0, 3, 0, 1), 5));
  }

  @Test
  void moreIsWantedForMore() {
    Outlook outlook = new Outlook(3, 0.3, 0.5, 0, 0.3, 0, 1);
    double before = -1;
    for (double target = 2; target <= 5; target += 0.25) {
      double duty = duty(outlook, target);
      assertTrue(duty >= before, "target " + target);
      before = duty;
    }
  }
}
