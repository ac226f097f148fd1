package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HourTest {
  private static final double MIDNIGHT = 1_782_864_000; // 2026-07-01T00:00:00Z

  private static EstimateSettings at(double longitudeDeg) {
    return new EstimateSettings(
        50, 45, longitudeDeg, SlowSettings.configured(30, 3400, ChlorineForm.SALT_CELL, 1), 2, 3);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-179, -75, 0, 8, 180})
  void peopleAreOneOnTheMeanOfADay(double longitudeDeg) {
    double sum = 0;
    for (int minute = 0; minute < 1440; minute++) {
      double people = Hour.of(at(longitudeDeg), MIDNIGHT + 60 * (minute + 0.5)).people();
      assertTrue(people >= 0);
      sum += people / 1440;
    }
    assertEquals(1, sum, 1e-4);
  }

  /** Nobody at three in the morning by the sun, most in the afternoon, wherever the pool is. */
  @ParameterizedTest
  @ValueSource(doubles = {-120, 0, 120})
  void peopleComeByDay(double longitudeDeg) {
    double solarMidnight = MIDNIGHT - longitudeDeg / 15 * 3600;
    assertEquals(0, Hour.of(at(longitudeDeg), solarMidnight + 3 * 3600).people());
    assertEquals(0, Hour.of(at(longitudeDeg), solarMidnight + 9 * 3600).people());
    // Half a sine wave from 9.5 to 22 h: 24/12.5 × π/2 in its middle.
    assertEquals(
        24 / 12.5 * Math.PI / 2,
        Hour.of(at(longitudeDeg), solarMidnight + 15.75 * 3600).people(),
        1e-9);
    assertEquals(0, Hour.of(at(longitudeDeg), solarMidnight + 22.5 * 3600).people());
  }

  @Test
  void theSunIsItsHeightAgainstASummerDay() {
    double mean = 0;
    for (int minute = 0; minute < 1440; minute++) {
      double t = MIDNIGHT + 60 * (minute + 0.5);
      Hour hour = Hour.of(at(8), t);
      assertEquals(Math.max(0, Sun.cosZenith(t, 45, 8)) / 0.33, hour.sun(), 1e-12);
      assertFalse(hour.measured());
      mean += hour.sun() / 1440;
    }
    assertEquals(Sun.dailyMeanCosZenith(MIDNIGHT, 45) / 0.33, mean, 5e-3);
    assertEquals(1, mean, 0.12, "a summer day at 45°");
  }

  @Test
  void anotherSunLeavesThePeople() {
    Hour hour = Hour.of(at(8), MIDNIGHT + 12 * 3600);
    assertEquals(new Hour(0.5, hour.people(), true), hour.withSun(0.5, true));
  }
}
