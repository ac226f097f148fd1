package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.estimate.SunForecast;
import limnostat.measure.MeasureSettings;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What is told and seen of the sun, in whole scans: what is granted, and what the plan makes of it.
 */
class SunForecastTest {
  private static final double MORNING = 1_782_892_800; // 2026-07-01T08:00:00Z
  private static final double HOUR_S = 3600;

  private static ScanSettings pool() {
    ScanSettings pool = TestSettings.pool();
    MeasureSettings m = pool.measure();
    return new ScanSettings(
        new MeasureSettings(
            m.orp(),
            m.orpOffsetMv(),
            m.ph(),
            m.phCalibration(),
            m.water(),
            m.waterFallbackC(),
            m.flow(),
            m.freshWaterS(),
            Set.of(Role.COVER_CLOSED, Role.SOLAR_W_M2)),
        pool.estimate(),
        pool.control(),
        pool.limits(),
        pool.chlorine(),
        pool.acid());
  }

  private static ScanOutcome scan(Map<Role, Signal> signals, Command... commands) {
    return Scan.step(
        pool(),
        ScanState.start(pool()),
        new ScanInputs(
            0,
            MORNING,
            true,
            Signals.of(signals),
            Map.of(),
            false,
            true,
            Arrays.stream(commands).map(c -> CommandSource.request(c)).toList()));
  }

  private static ScanOutcome told(double fromUnixS, List<Double> fractions) {
    return scan(Map.of(), new Command.ForecastSun(fromUnixS, fractions));
  }

  private static String reason(ScanOutcome outcome) {
    return assertInstanceOf(ScanEvent.Refused.class, outcome.events().get(0)).reason();
  }

  @Test
  void aForecastIsKeptAndAnEmptyOneTakesItBack() {
    ScanOutcome outcome = told(MORNING - HOUR_S, List.of(0.2, 1.2, 0.0));
    assertInstanceOf(ScanEvent.Accepted.class, outcome.events().get(0));
    assertEquals(
        new SunForecast(MORNING - HOUR_S, List.of(0.2, 1.2, 0.0)),
        outcome.state().sun().forecast());
    ScanOutcome back =
        scan(
            Map.of(),
            new Command.ForecastSun(MORNING, List.of(0.2)),
            new Command.ForecastSun(MORNING, List.of()));
    assertEquals(List.of(), back.state().sun().forecast().clearSkyFractions());
  }

  @ParameterizedTest
  @CsvSource({
    "0, 73, 1, at most 72",
    "0, 24, -0.01, clear_sky_fraction -0.01",
    "0, 24, 1.21, clear_sky_fraction 1.21",
    "0, 24, NaN, clear_sky_fraction NaN",
    "-24, 24, 1, over already",
    "73, 24, 1, more than 72 hours from now",
    "NaN, 24, 1, no time"
  })
  void whatCannotServeIsRefusedWithTheReason(
      double fromH, int hours, double fraction, String reason) {
    ScanOutcome outcome = told(MORNING + fromH * HOUR_S, Collections.nCopies(hours, fraction));
    assertTrue(reason(outcome).contains(reason), reason(outcome));
    assertEquals(SunForecast.NONE, outcome.state().sun().forecast());
  }

  /** Less sun, less use, less chlorine: the plan of the coming day. */
  @Test
  void thePlanFollowsTheForecast() {
    double usual = scan(Map.of()).state().control().plan().duty();
    double dull = told(MORNING, Collections.nCopies(24, 0.1)).state().control().plan().duty();
    double clear = told(MORNING, Collections.nCopies(24, 1.2)).state().control().plan().duty();
    assertTrue(dull < usual - 0.02 && clear > usual + 0.02, dull + " " + usual + " " + clear);
  }

  /** Each hour gets what it takes: under a cover that is closed now, and on a dark day, less. */
  @Test
  void thePlanFollowsTheCoverForAWhile() {
    double open =
        scan(Map.of(Role.COVER_CLOSED, new Signal.Contact(false))).state().control().plan().duty();
    double closed =
        scan(Map.of(Role.COVER_CLOSED, new Signal.Contact(true))).state().control().plan().duty();
    double dark = told(MORNING, Collections.nCopies(24, 0.0)).state().control().plan().duty();
    assertTrue(dark < open - 0.05 && closed < open - 0.05, dark + " " + closed + " " + open);
  }

  /** The filter believes of a sunless day that less was lost. */
  @Tag("slow")
  @Test
  void theEstimateFollowsTheSunOnTheWater() {
    double open = afterADay(false);
    double covered = afterADay(true);
    assertTrue(covered > open + 0.2, covered + " mg/L under the cover, " + open + " in the sun");
  }

  private static double afterADay(boolean covered) {
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.COVER_CLOSED, new Signal.Contact(covered));
    ScanState state = ScanState.start(pool());
    ScanOutcome out = null;
    for (int minute = 0; minute < 1440; minute++) {
      out =
          Scan.step(
              pool(),
              state,
              new ScanInputs(
                  60,
                  MORNING + 60 * minute,
                  true,
                  Signals.of(signals),
                  Map.of(),
                  false,
                  true,
                  List.of()));
      state = out.state();
    }
    return out.estimate().freeChlorineMgL();
  }
}
