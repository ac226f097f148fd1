package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Estimate;
import limnostat.estimate.Estimates;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;
import org.junit.jupiter.api.Test;

/** Worked by hand: 50 m³, 20 g/h in ten hours of pump. */
class CapacityTest {
  private static final Feed FEED = new Feed(20, 20, 500);

  /** 3 mg/L a day at the target of 3 mg/L in the dark, and 0.2 a day of what there is by sun. */
  private static Estimate estimate(double gain, double demandSdMgLDay) {
    Outlook outlook = new Outlook(1, 0, 3 * 3.1 / 3, 0, 0.2, 0, gain);
    return Estimates.withDemandSd(Estimates.of(outlook, 0.9, 3, 700), demandSdMgLDay);
  }

  private static Estimate estimate(double gain) {
    return estimate(gain, 0.1);
  }

  private static Capacity by(Capacity before, Estimate estimate, Feed feed, double sunShape) {
    ControlSettings settings =
        new ControlSettings(3, 7.4, ZoneOffset.UTC, List.of(new PumpWindow(8 * 3600, 18 * 3600)));
    return before.by(
        estimate,
        new Capacity.Inputs(settings, feed, 50, 3, at -> new Hour(sunShape, 1), 1_782_864_000));
  }

  private static Capacity by(Estimate estimate, Feed feed, double sunShape) {
    return by(Capacity.UNKNOWN, estimate, feed, sunShape);
  }

  @Test
  void neededIsTheLossAtTheTarget() {
    assertEquals(150, by(estimate(1), FEED, 0).neededGDay(), 1e-9);
    assertEquals(180, by(estimate(1), FEED, 1).neededGDay(), 1e-9);
  }

  @Test
  void whatTheOutputBringsHasGainHoursAndCapsInIt() {
    assertEquals(200, by(estimate(1), FEED, 0).bringsGDay(), 1e-9);
    assertEquals(140, by(estimate(0.7), FEED, 0).bringsGDay(), 1e-9);
    assertEquals(
        150, by(estimate(1), new Feed(20, 15, 500), 0).bringsGDay(), 1e-9, "cap of 60 min");
    assertEquals(90, by(estimate(1), new Feed(20, 20, 90), 0).bringsGDay(), 1e-9, "cap of 24 h");
  }

  @Test
  void aTenthTooLittleIsLackingUntilItIsEnough() {
    assertFalse(by(estimate(0.70), FEED, 0).lacking(), "150 g against 140 g");
    Capacity lacking = by(estimate(0.67), FEED, 0);
    assertTrue(lacking.lacking(), "150 g against 134 g");
    assertTrue(by(lacking, estimate(0.70), FEED, 0).lacking(), "still too little");
    assertFalse(by(lacking, estimate(0.76), FEED, 0).lacking(), "150 g against 152 g");
  }

  /** 150 g with a deviation of 50 against 120 g: it may well be enough. */
  @Test
  void whatIsNotSureIsNotLacking() {
    assertFalse(by(estimate(0.6, 1), FEED, 0).lacking());
    assertTrue(by(estimate(0.6, 0.5), FEED, 0).lacking(), "150 g with 25 against 120 g");
  }

  @Test
  void itIsTooSmallOnceItHasLackedForADay() {
    Capacity capacity = by(estimate(0.5), FEED, 0);
    for (int minute = 0; minute < 1439; minute++) {
      capacity = capacity.step(60);
    }
    assertFalse(capacity.tooSmall());
    capacity = capacity.step(60);
    assertTrue(capacity.tooSmall());
    assertFalse(by(capacity, estimate(1), FEED, 0).tooSmall(), "a better output");
  }
}
