package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Random;
import net.e175.klaus.solarpositioning.Grena3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SunTest {
  /**
   * First row: Reda and Andreas (2003), NREL TP-560-34302, worked example: geometric zenith
   * 50.12795°. The others computed by NOAA's long form elsewhere. Tolerance of the long form:
   * 0.05°.
   */
  @ParameterizedTest
  @CsvSource({
    "2003-10-17T19:30:30Z, 39.742476, -105.1786, 50.12795",
    "2024-06-20T20:00:00Z, 33.45, -112.07, 11.97",
    "2024-12-21T12:00:00Z, 51.5, 0, 74.94",
    "2024-03-20T02:00:00Z, -33.87, 151.21, 33.86"
  })
  void zenith(String instant, double latitudeDeg, double longitudeDeg, double zenithDeg) {
    double cos =
        Sun.cosZenith((double) Instant.parse(instant).getEpochSecond(), latitudeDeg, longitudeDeg);
    assertEquals(zenithDeg, Math.toDegrees(Math.acos(cos)), 0.05);
  }

  /** The reference library's Grena 3 algorithm, 2010–2110, without refraction. */
  @Test
  void agreesWithTheReferenceLibrary() {
    Random random = new Random(7);
    for (int i = 0; i < 2000; i++) {
      int unixS = 1_300_000_000 + random.nextInt(800_000_000);
      double latitude = -80 + 160 * random.nextDouble();
      double longitude = -180 + 360 * random.nextDouble();
      double reference =
          Grena3.calculateSolarPosition(
                  Instant.ofEpochSecond(unixS).atZone(ZoneOffset.UTC), latitude, longitude, 69)
              .zenithAngle();
      double zenith = Math.toDegrees(Math.acos(Sun.cosZenith(unixS, latitude, longitude)));
      assertEquals(reference, zenith, 0.05, unixS + " at " + latitude + ", " + longitude);
    }
  }

  @Test
  void dailyMeanIsTheMeanOfTheDay() {
    for (double latitude : new double[] {-60, -33, 0, 25, 46, 65, 80}) {
      double noon = Instant.parse("2026-07-10T12:00:00Z").getEpochSecond();
      double sum = 0;
      for (int minute = 0; minute < 1440; minute++) {
        sum += Math.max(0, Sun.cosZenith(noon - 43_200 + 60 * minute, latitude, 0));
      }
      assertEquals(
          sum / 1440, Sun.dailyMeanCosZenith(noon, latitude), 2e-3, "latitude " + latitude);
    }
  }

  @Test
  void polarNightHasNoSun() {
    double midwinter = Instant.parse("2026-12-21T12:00:00Z").getEpochSecond();
    assertEquals(0, Sun.dailyMeanCosZenith(midwinter, 75), 1e-9);
    assertTrue(Sun.cosZenith(midwinter, 75, 0) < 0);
  }
}
