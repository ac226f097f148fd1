package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SkyTest {
  private static double unixS(String instant) {
    return Instant.parse(instant).getEpochSecond();
  }

  /**
   * NREL/TP-560-34302: geometric zenith 50.12795° [checked]; long-form zeniths 11.97°, 74.94° and
   * 33.86° [computed]. The short form is good to 0.6°.
   */
  @Test
  void standsWhereTheSunIs() {
    assertZenith(50.128, "2003-10-17T19:30:30Z", 39.742476, -105.1786);
    assertZenith(11.97, "2024-06-20T20:00:00Z", 33.45, -112.07);
    assertZenith(74.94, "2024-12-21T12:00:00Z", 51.5, 0);
    assertZenith(33.86, "2024-03-20T02:00:00Z", -33.87, 151.21);
  }

  private static void assertZenith(
      double expectedDeg, String at, double latitude, double longitude) {
    double sine = Sky.sineOfHeight(unixS(at), latitude, longitude);
    assertEquals(expectedDeg, 90 - StrictMath.toDegrees(StrictMath.asin(sine)), 0.6);
  }

  /**
   * Kasten and Czeplak, sun 60° high: 758.1, 704.2 and 189.5 W/m² at 0, 4 and 8 octas [computed].
   */
  @Test
  void radiatesByKastenAndCzeplak() {
    double sine = StrictMath.sin(StrictMath.toRadians(60));
    assertEquals(758.1, Sky.solarWM2(sine, 0), 0.1);
    assertEquals(704.2, Sky.solarWM2(sine, 4), 0.1);
    assertEquals(189.5, Sky.solarWM2(sine, 8), 0.1);
    assertEquals(0, Sky.solarWM2(-0.5, 0));
  }

  /**
   * The photolysis rates were measured under a clear summer noon at 47° N: there the scale is 1.
   */
  @Test
  void scalesUltravioletToAClearSummerNoon() {
    Sky sky = new Sky(new Sky.Settings(47, 8, -40, 0, 0), new Random(1));
    sky.advanceTo(unixS("2026-06-21T11:30:00Z"));
    assertEquals(1, sky.ultravioletFraction(), 0.01);
    sky.advanceTo(unixS("2026-06-21T23:30:00Z"));
    assertEquals(0, sky.ultravioletFraction());
  }

  @Test
  void cloudsComeAndGoByTheirSeed() {
    double[] first = aDayOfCloud(7);
    assertEquals(0, spread(first, aDayOfCloud(7)));
    assertNotEquals(0, spread(first, aDayOfCloud(8)));
    for (double octas : first) {
      assertTrue(octas >= 0 && octas <= 8, "octas " + octas);
    }
  }

  private static double[] aDayOfCloud(long seed) {
    Sky sky = new Sky(PlantSettings.domestic(1).climate().sky(), new Random(seed));
    double[] octas = new double[240];
    for (int i = 0; i < octas.length; i++) {
      sky.advanceTo(1_782_864_000.0 + 360 * i);
      octas[i] = sky.cloudOctas();
    }
    return octas;
  }

  private static double spread(double[] one, double[] other) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += Math.abs(one[i] - other[i]);
    }
    return sum;
  }
}
