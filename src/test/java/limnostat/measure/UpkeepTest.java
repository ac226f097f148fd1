package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What calibrations say of the probes. Limits: water-chemistry sections 3 and 4. */
class UpkeepTest {
  private static final double DAY_S = 86_400;

  @ParameterizedTest
  @CsvSource({
    "0.95, 0, GOOD",
    "1.02, 0, GOOD",
    "1, 15, GOOD",
    "1, -15, GOOD",
    "0.9499, 0, MAINTENANCE_REQUIRED",
    "1.0201, 0, MAINTENANCE_REQUIRED",
    "0.90, 0, MAINTENANCE_REQUIRED",
    "1.05, 0, MAINTENANCE_REQUIRED",
    "1, 15.1, MAINTENANCE_REQUIRED",
    "1, -30, MAINTENANCE_REQUIRED",
    "0.8999, 0, OUT_OF_SPECIFICATION",
    "0.85, 30, OUT_OF_SPECIFICATION",
    "0.8499, 0, FAILURE",
    "1.0501, 0, FAILURE",
    "1, 30.1, FAILURE",
    "1, -30.1, FAILURE",
    "NaN, 0, FAILURE",
    "1, NaN, FAILURE"
  })
  void aGlassElectrodeIsJudgedBySlopeAndOffset(double slope, double offsetMv, Status status) {
    assertEquals(status, ProbeHealth.ph(new PhCalibration(offsetMv, slope)));
  }

  @ParameterizedTest
  @CsvSource({
    "0, GOOD",
    "20, GOOD",
    "-20, GOOD",
    "20.1, MAINTENANCE_REQUIRED",
    "-50, MAINTENANCE_REQUIRED",
    "50.1, FAILURE",
    "-50.1, FAILURE",
    "NaN, FAILURE"
  })
  void anOrpProbeIsJudgedByItsOffset(double offsetMv, Status status) {
    assertEquals(status, ProbeHealth.orp(offsetMv));
  }

  /** S(25 °C) = 59.159 mV a pH unit: water-chemistry section 4. */
  @Test
  void aStepOfPotentialIsAStepOfPh() {
    assertEquals(1, PhCalibration.IDEAL.perPh(59.159), 1e-4);
    assertEquals(0.5, new PhCalibration(20, 0.9).perPh(59.159 * 0.9 / 2), 1e-4);
  }

  @Test
  void aCalibrationGrowsOld() {
    CalibrationAge age = new CalibrationAge(OptionalDouble.of(1e9), 90 * DAY_S);
    assertFalse(age.due(OptionalDouble.of(1e9 + 90 * DAY_S)));
    assertTrue(age.due(OptionalDouble.of(1e9 + 90 * DAY_S + 1)));
    assertFalse(age.due(OptionalDouble.empty()), "nobody knows the day");
    assertFalse(CalibrationAge.NOT_TOLD.due(OptionalDouble.of(2e9)));
  }

  /** 2062 for 2026 would silence the reminder for good. */
  @Test
  void aDateAheadIsASlip() {
    CalibrationAge age = new CalibrationAge(OptionalDouble.of(1e9), 90 * DAY_S);
    assertFalse(age.due(OptionalDouble.of(1e9 - DAY_S)), "already tomorrow elsewhere");
    assertTrue(age.due(OptionalDouble.of(1e9 - DAY_S - 1)));
  }

  private static Measurements measured(
      PhCalibration ph, double orpOffsetMv, CalibrationAge orpAge, CalibrationAge phAge) {
    MeasureSettings settings =
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0, 0, 60),
            orpOffsetMv,
            new ProbeSettings(4, 10, 0.05, 0, 0, 60),
            ph,
            new ProbeSettings(-2, 50, 0.2, 0, 0, 60),
            21,
            new FlowSensor.Switch(),
            0,
            Set.of(),
            orpAge,
            phAge,
            PumpSign.NONE);
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.ORP_MV, new Signal.Analog(700));
    signals.put(Role.PH_MV, new Signal.Analog(-25));
    signals.put(Role.WATER_C, new Signal.Analog(25));
    signals.put(Role.FLOW, new Signal.Contact(true));
    return Measure.step(
            settings, MeasureState.START, Signals.of(signals), OptionalDouble.of(1e9), 1)
        .measurements();
  }

  private static final CalibrationAge OLD = new CalibrationAge(OptionalDouble.of(1e9 - 100), 99);
  private static final CalibrationAge NEW = new CalibrationAge(OptionalDouble.of(1e9 - 100), 101);

  @Test
  void aWornProbesValueIsUsedAndSaysSo() {
    Measurements m = measured(new PhCalibration(0, 0.88), 35, NEW, NEW);
    assertEquals(Status.OUT_OF_SPECIFICATION, m.ph().status());
    assertEquals(Status.MAINTENANCE_REQUIRED, m.orpMv().status());
    assertTrue(m.ph().fresh() && m.orpMv().fresh() && m.upkeep().worn());
    assertFalse(m.upkeep().calibrationDue());
    assertEquals(Status.GOOD, m.waterC().status());
  }

  @Test
  void anOldCalibrationIsMaintenanceRequired() {
    Measurements orp = measured(PhCalibration.IDEAL, 0, OLD, NEW);
    assertEquals(Status.MAINTENANCE_REQUIRED, orp.orpMv().status());
    assertEquals(Status.GOOD, orp.ph().status());
    assertTrue(orp.upkeep().calibrationDue());
    assertFalse(orp.upkeep().worn());
    Measurements ph = measured(new PhCalibration(0, 0.88), 0, NEW, OLD);
    assertEquals(Status.OUT_OF_SPECIFICATION, ph.ph().status(), "the worse of the two");
    assertEquals(Status.GOOD, ph.orpMv().status());
    assertTrue(ph.upkeep().calibrationDue() && ph.upkeep().worn());
  }

  /** The file refuses such a calibration; should one come all the same, nothing goes by it. */
  @Test
  void aCalibrationThatNoProbeHasIsAFailure() {
    Measurements m = measured(new PhCalibration(0, 0.5), 60, NEW, NEW);
    for (Measurement failed : List.of(m.orpMv(), m.ph())) {
      assertEquals(Status.FAILURE, failed.status());
      assertEquals(List.of(Plausibility.CALIBRATION), failed.failed());
      assertFalse(failed.usable());
      assertTrue(failed.shown().isPresent());
    }
  }

  @Test
  void sayingWhatAProbeNeedsNeverMakesAValue() {
    Measurement none =
        new Measurement.None(
            Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.empty());
    Measurement held =
        new Measurement.Value(7, Status.OUT_OF_SPECIFICATION, 10, List.of(Plausibility.RATE));
    for (Status status : Status.values()) {
      assertEquals(none, none.atBest(status));
      assertTrue(held.atBest(status).status().compareTo(status) >= 0);
      assertTrue(held.atBest(status).status().compareTo(Status.OUT_OF_SPECIFICATION) >= 0);
    }
    Measurement twoTests =
        new Measurement.Value(7, Status.GOOD, 0, List.of())
            .atBest(new Upkeep(false, false, Status.GOOD, Status.GOOD, true).phAtBest());
    assertEquals(Status.MAINTENANCE_REQUIRED, twoTests.status());
  }

  /** A thermometer that has failed gives way to its stand-in; one that stands dry to the last. */
  @Test
  void theStandInIsForFailureOnly() {
    Measurements good = measured(PhCalibration.IDEAL, 0, NEW, NEW);
    assertEquals(25, good.waterOr(18));
    assertEquals(0, good.waterSdC());
    Map<Role, Signal> none = new EnumMap<>(Role.class);
    none.put(Role.FLOW, new Signal.Contact(true));
    MeasureSettings settings =
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0, 0, 60),
            0,
            new ProbeSettings(4, 10, 0.05, 0, 0, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(-2, 50, 0.2, 0, 0, 60),
            21,
            new FlowSensor.Switch(),
            60,
            Set.of());
    MeasureState flowed =
        new MeasureState(
            Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, 500, PhCheck.START);
    Measurements failed = Measure.step(settings, flowed, Signals.of(none), 1).measurements();
    assertEquals(21, failed.waterOr(18));
    assertEquals(5, failed.waterSdC());
    Measurements standing =
        Measure.step(settings, MeasureState.START, Signals.of(none), 1).measurements();
    assertEquals(18, standing.waterOr(18));
    assertEquals(0, standing.waterSdC());
  }
}
