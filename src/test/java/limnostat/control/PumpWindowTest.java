package limnostat.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import limnostat.control.ControlSettings.PumpWindow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PumpWindowTest {
  private static final int HOUR_S = 3600;

  private static ControlSettings settings(ZoneId zone, PumpWindow... windows) {
    return new ControlSettings(3, 7.4, zone, List.of(windows));
  }

  private static double unixS(String instant) {
    return Instant.parse(instant).getEpochSecond();
  }

  @Test
  void noWindowIsAlways() {
    ControlSettings settings = settings(ZoneOffset.UTC);
    assertTrue(settings.pumpWanted(0));
    assertEquals(24 * HOUR_S, settings.pumpS());
  }

  @Test
  void aWindowBeginsWithItsFirstSecondAndEndsBeforeItsLast() {
    ControlSettings settings = settings(ZoneOffset.UTC, new PumpWindow(9 * HOUR_S, 17 * HOUR_S));
    assertFalse(settings.pumpWanted(unixS("2026-07-01T08:59:59Z") + 0.999));
    assertTrue(settings.pumpWanted(unixS("2026-07-01T09:00:00Z")));
    assertTrue(settings.pumpWanted(unixS("2026-07-01T16:59:59Z") + 0.999));
    assertFalse(settings.pumpWanted(unixS("2026-07-01T17:00:00Z")));
    assertEquals(8 * HOUR_S, settings.pumpS());
  }

  @Test
  void aWindowOverMidnight() {
    ControlSettings settings = settings(ZoneOffset.UTC, new PumpWindow(22 * HOUR_S, 6 * HOUR_S));
    assertTrue(settings.pumpWanted(unixS("2026-07-01T23:59:59Z")));
    assertTrue(settings.pumpWanted(unixS("2026-07-02T00:00:00Z")));
    assertTrue(settings.pumpWanted(unixS("2026-07-02T05:59:59Z")));
    assertFalse(settings.pumpWanted(unixS("2026-07-02T06:00:00Z")));
    assertFalse(settings.pumpWanted(unixS("2026-07-02T21:59:59Z")));
    assertEquals(8 * HOUR_S, settings.pumpS());
  }

  @Test
  void aWindowToMidnightAndAWholeDay() {
    ControlSettings evening = settings(ZoneOffset.UTC, new PumpWindow(20 * HOUR_S, 24 * HOUR_S));
    assertTrue(evening.pumpWanted(unixS("2026-07-01T23:59:59Z")));
    assertFalse(evening.pumpWanted(unixS("2026-07-02T00:00:00Z")));
    assertEquals(4 * HOUR_S, evening.pumpS());
    ControlSettings day = settings(ZoneOffset.UTC, new PumpWindow(0, 24 * HOUR_S));
    assertTrue(day.pumpWanted(unixS("2026-07-02T00:00:00Z")));
    assertTrue(day.pumpWanted(unixS("2026-07-01T23:59:59Z")));
    assertEquals(24 * HOUR_S, day.pumpS());
  }

  /** Before 1970 the seconds of the day still count forwards: a board begins anywhere. */
  @Test
  void timesBeforeTheEpoch() {
    ControlSettings settings = settings(ZoneOffset.UTC, new PumpWindow(9 * HOUR_S, 17 * HOUR_S));
    assertTrue(settings.pumpWanted(unixS("1969-12-31T12:00:00Z")));
    assertFalse(settings.pumpWanted(unixS("1969-12-31T18:00:00Z")));
  }

  /**
   * Berlin 2026: on 29 March 02:00 is followed by 03:00, on 25 October 02:00 to 03:00 comes twice
   * (EU Directive 2000/84/EC: last Sundays, 01:00 UTC). The window goes by the clock on the wall.
   */
  @ParameterizedTest
  @CsvSource({
    "2026-03-28T12:00:00Z, 1800", // half an hour of the window does not exist
    "2026-03-29T12:00:00Z, 3600",
    "2026-10-24T12:00:00Z, 5400", // half an hour of it comes twice
    "2026-10-25T12:00:00Z, 3600"
  })
  void daysOnWhichTheClockChanges(String from, int wantedS) {
    ControlSettings settings =
        settings(ZoneId.of("Europe/Berlin"), new PumpWindow(2 * HOUR_S + 1800, 3 * HOUR_S + 1800));
    double startS = unixS(from);
    int seconds = 0;
    for (int s = 0; s < 86_400; s++) {
      seconds += settings.pumpWanted(startS + s) ? 1 : 0;
    }
    assertEquals(wantedS, seconds);
  }
}
