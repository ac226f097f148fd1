package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.measure.Outside;
import limnostat.rig.Fixtures;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SunOnWaterTest {
  private static final EstimateSettings POOL = Fixtures.SALT_POOL;
  private static final double NOON = 1_782_907_200; // 2026-07-01T12:00:00Z
  private static final double HOUR_S = 3600;
  private static final double MIDNIGHT = NOON + 12 * HOUR_S;

  private SunOnWater sun = SunOnWater.START;
  private double nowS = NOON;

  private static Outside outside(double solarWM2) {
    return new Outside(OptionalDouble.of(solarWM2), Optional.empty());
  }

  private static Outside cover(boolean closed) {
    return new Outside(OptionalDouble.empty(), Optional.of(closed));
  }

  /** What a clear sky gives now, W/m². */
  private double clearWM2() {
    return SunOnWater.clearSkyWM2(Sun.cosZenith(nowS, POOL.latitudeDeg(), POOL.longitudeDeg()));
  }

  private double sky() {
    return Hour.of(POOL, nowS).sun();
  }

  private void run(Outside outside, double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      nowS += 10;
      sun = sun.step(POOL, outside, nowS, 10);
    }
  }

  /** A sky that leaves the same fraction of the sun all the while. */
  private void runUnder(double fraction, double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      nowS += 10;
      sun = sun.step(POOL, outside(fraction * clearWM2()), nowS, 10);
    }
  }

  /** Haurwitz (1945) with k = 0.059: rows of water-chemistry section 11. */
  @ParameterizedTest
  @CsvSource({"0, 1035.1", "30, 888.3", "60, 487.9", "80, 135.7"})
  void clearSky(double zenithDeg, double wM2) {
    assertEquals(
        wM2, SunOnWater.clearSkyWM2(StrictMath.cos(StrictMath.toRadians(zenithDeg))), 0.05);
    assertEquals(0, SunOnWater.clearSkyWM2(-0.1));
  }

  @Test
  void withoutAnyNewsTheSkyIsTheUsualOne() {
    run(Outside.UNKNOWN, 3 * HOUR_S);
    assertEquals(sky(), sun.shape());
    assertEquals(Hour.of(POOL, nowS + 7200).sun(), sun.hourAt(POOL, nowS + 7200, nowS).sun());
    run(Outside.UNKNOWN, 9 * HOUR_S);
    assertEquals(0, sun.shape(), "by night");
  }

  /** Whether it is always clear or always half so, and whether the sensor reads half of it. */
  @ParameterizedTest
  @CsvSource({"1", "0.5", "0.25"})
  void aSkyThatNeverChangesIsTheUsualOne(double light) {
    runUnder(light, 20 * 24 * HOUR_S);
    assertEquals(StrictMath.pow(light, 0.7), sun.usualFraction(), 0.05);
    assertEquals(sky(), sun.shape(), 0.1 * sky());
    double shape = sun.shape();
    run(Outside.UNKNOWN, 10);
    assertEquals(shape, sun.shape(), 0.1 * sky(), "a sensor that fails makes no step");
  }

  /** Clear and dull by turns: light by 1 to 0.2, ultraviolet by 1 to 0.2^0.7 = 0.324. */
  @Test
  void cloudsShowWithinMinutes() {
    for (int day = 0; day < 20; day++) {
      runUnder(1, 24 * HOUR_S);
      runUnder(0.2, 24 * HOUR_S);
    }
    assertEquals((1 + 0.324) / 2, sun.usualFraction(), 0.04);
    runUnder(0.2, 1800);
    assertEquals(0.324 / 0.662 * sky(), sun.shape(), 0.1);
    runUnder(1, 1800);
    assertEquals(1 / 0.662 * sky(), sun.shape(), 0.2);
    assertEquals(
        Hour.of(POOL, nowS + 86_400).sun(),
        sun.hourAt(POOL, nowS + 86_400, nowS).sun(),
        1e-12,
        "tomorrow is a usual day");
  }

  /** A sensor that has told of the sky by day tells of it until the next, unless it fails. */
  @Test
  void theSunIsMeasuredWhileASensorTells() {
    assertFalse(sun.now(POOL, nowS).measured());
    runUnder(0.5, 60);
    assertEquals(new Hour(sun.shape(), Hour.of(POOL, nowS).people(), true), sun.now(POOL, nowS));
    assertFalse(sun.hourAt(POOL, nowS + HOUR_S, nowS).measured(), "nobody measures what will be");
    runUnder(0.5, 12 * HOUR_S);
    assertTrue(sun.now(POOL, nowS).measured(), "by night too");
    run(Outside.UNKNOWN, 10);
    assertFalse(sun.now(POOL, nowS).measured(), "it has failed");
    runUnder(0, 60);
    assertFalse(sun.now(POOL, nowS).measured(), "nothing was seen since");
    nowS = NOON + 24 * HOUR_S;
    runUnder(0.5, 60);
    assertTrue(sun.now(POOL, nowS).measured());
    run(outside(3), 60);
    assertFalse(sun.now(POOL, nowS).measured(), "a dead sensor");
  }

  @Test
  void noReadingMakesMoreThanTwiceTheUsualSun() {
    runUnder(0.1, 20 * 24 * HOUR_S);
    runUnder(50, 1800);
    assertEquals(2 * sky(), sun.shape(), 1e-9);
  }

  /** A sensor under a leaf, or unplugged, shows nothing at noon: no cloud does. */
  @Test
  void aDeadSensorIsNotANight() {
    run(outside(3), HOUR_S);
    assertEquals(sky(), sun.shape());
    assertEquals(SunOnWater.START.usualFraction(), sun.usualFraction());
  }

  /** One that is stuck shows sun at night, and is not believed until it has been dark once. */
  @Test
  void aSensorThatShowsSunAtNightIsNotBelieved() {
    nowS = MIDNIGHT;
    run(outside(400), HOUR_S);
    assertEquals(0, sun.shape());
    assertTrue(sun.implausible());
    run(outside(400), 11 * HOUR_S);
    assertEquals(sky(), sun.shape(), "noon");
    run(outside(0.5), 12 * HOUR_S);
    assertFalse(sun.implausible());
    runUnder(0.3, 12 * HOUR_S);
    assertTrue(sun.shape() < 0.8 * sky());
  }

  @Test
  void aClosedCoverKeepsTheSunOff() {
    run(cover(true), HOUR_S);
    assertEquals(0, sun.shape());
    assertEquals(0, sun.hourAt(POOL, nowS + 2.9 * HOUR_S, nowS).sun(), "it stays for some hours");
    double later = nowS + 3.1 * HOUR_S;
    assertEquals(Hour.of(POOL, later).sun(), sun.hourAt(POOL, later, nowS).sun(), "not for ever");
    run(cover(false), 10);
    assertEquals(sky(), sun.shape());
  }

  /** A cover switch that fails brings no sun, and so no chlorine, at once. */
  @Test
  void aCoverThatIsNotReadStaysForSomeHours() {
    run(cover(true), HOUR_S);
    run(Outside.UNKNOWN, 2 * HOUR_S);
    assertEquals(0, sun.shape());
    run(Outside.UNKNOWN, 1.1 * HOUR_S);
    assertEquals(sky(), sun.shape());
    run(cover(false), 10);
    run(Outside.UNKNOWN, HOUR_S);
    assertEquals(sky(), sun.shape(), "an open one stays open");
  }

  @Test
  void aForecastServesThePlanAndThePresent() {
    sun = sun.withForecast(new SunForecast(NOON, List.of(0.5, 0.2)));
    assertEquals(OptionalDouble.empty(), sun.forecast().at(NOON - 1));
    assertEquals(OptionalDouble.of(0.5), sun.forecast().at(NOON));
    assertEquals(OptionalDouble.of(0.5), sun.forecast().at(NOON + 3599));
    assertEquals(OptionalDouble.of(0.2), sun.forecast().at(NOON + 3600));
    assertEquals(OptionalDouble.empty(), sun.forecast().at(NOON + 7200));
    double at = NOON + 1.5 * HOUR_S;
    assertEquals(
        StrictMath.pow(0.2, 0.7) / 0.75 * Hour.of(POOL, at).sun(),
        sun.hourAt(POOL, at, NOON).sun(),
        1e-12);
    run(Outside.UNKNOWN, 1800);
    double half = StrictMath.pow(0.5, 0.7);
    assertEquals(half / sun.usualFraction() * sky(), sun.shape(), 0.01);
    runUnder(1, 1790);
    assertEquals(
        1 / sun.usualFraction() * sky(), sun.shape(), 0.02, "the measured before the forecast");
    run(Outside.UNKNOWN, 2 * HOUR_S);
    assertEquals(sky(), sun.shape(), 1e-12, "it is over");
  }

  @Test
  void aForecastIsBounded() {
    assertEquals(72, SunForecast.HOURS_MAX);
    List<Double> tooLong = Collections.nCopies(73, 0.5);
    assertThrows(IllegalArgumentException.class, () -> new SunForecast(0, tooLong));
    for (double wrong : new double[] {-0.01, 1.21, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> new SunForecast(0, List.of(wrong)), "" + wrong);
    }
    assertThrows(
        IllegalArgumentException.class,
        () -> new SunForecast(Double.POSITIVE_INFINITY, List.of(0.5)));
  }

  /** One reading after an outage of days is one reading. */
  @Test
  void anOutageTeachesNothing() {
    nowS += 30 * 24 * HOUR_S;
    sun = sun.step(POOL, outside(0.2 * clearWM2()), nowS, 30 * 24 * HOUR_S);
    assertEquals(SunOnWater.START.usualFraction(), sun.usualFraction(), 0.01);
    assertEquals(SunOnWater.START.fraction(), sun.fraction(), 0.1);
  }
}
