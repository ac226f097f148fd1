package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sensors that lie, in whole scans: what the outputs do, what people are told, and how it ends. */
class ProbeCareTest {
  private static final double SCAN_S = 5;
  private static final double START = 1_780_000_000;
  private static final double BLIND_FEED_MG_L = 5;

  private PhCalibration phCalibration = PhCalibration.IDEAL;
  private double orpOffsetMv;
  private CalibrationAge orpAge = CalibrationAge.NOT_TOLD;
  private CalibrationAge phAge = CalibrationAge.NOT_TOLD;
  private PumpSign pumpSign = PumpSign.NONE;
  private FlowSensor flowSensor = new FlowSensor.Switch();
  private double freshWaterS = 60;
  private double gapS;

  private final Random random = new Random(11);
  private final Map<Role, Signal> signals = new EnumMap<>(Role.class);
  private final List<Command> commands = new ArrayList<>();
  private final List<ScanEvent> events = new ArrayList<>();
  private ScanState state;
  private ScanOutcome out;
  private double atS;

  ProbeCareTest() {
    well();
  }

  private void well() {
    signals.put(Role.FLOW, new Signal.Contact(true));
    signals.put(Role.ORP_MV, new Signal.Analog(650));
    signals.put(Role.PH_MV, new Signal.Analog(-25));
    signals.put(Role.WATER_C, new Signal.Analog(20));
    signals.put(Role.PUMP_ON, new Signal.Contact(true));
  }

  private ScanSettings settings() {
    ScanSettings pool = TestSettings.pool();
    return new ScanSettings(
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0.05, 3600, 60),
            orpOffsetMv,
            new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60),
            phCalibration,
            new ProbeSettings(-2, 50, 0.2, 0, 0, 60),
            28,
            flowSensor,
            freshWaterS,
            Set.of(Role.PUMP_ON),
            orpAge,
            phAge,
            pumpSign),
        pool.estimate(),
        pool.control(),
        new limnostat.safety.SafetyLimits(800, 5, 10, 6.8, 8.0, 10, 40, 60, 300, BLIND_FEED_MG_L),
        pool.chlorine(),
        pool.acid());
  }

  private void scan(double forS) {
    for (double s = 0; s < forS; s += SCAN_S) {
      atS += SCAN_S;
      Map<Role, Signal> noisy = new EnumMap<>(signals);
      for (Role role : List.of(Role.ORP_MV, Role.PH_MV, Role.WATER_C)) {
        if (signals.get(role) instanceof Signal.Analog a && !frozen.contains(role)) {
          noisy.put(role, new Signal.Analog(a.value() + 0.2 * random.nextGaussian()));
        }
      }
      if (state == null) {
        state = ScanState.start(settings());
      }
      out =
          Scan.step(
              settings(),
              state,
              new ScanInputs(
                  SCAN_S + gapS,
                  START + atS,
                  true,
                  Signals.of(noisy),
                  Map.of(
                      Output.CHLORINE, state.chlorine().account().requested(),
                      Output.ACID, state.acid().account().requested()),
                  false,
                  true,
                  commands.stream().map(c -> CommandSource.request(c)).toList()));
      commands.clear();
      gapS = 0;
      events.addAll(out.events());
      state = out.state();
    }
  }

  private Set<Role> frozen = Set.of();

  private boolean active(Cause cause) {
    return out.permission().active().contains(cause);
  }

  private AlarmState alarm(Cause cause) {
    return state.alarms().containsKey(cause)
        ? state.alarms().get(cause).state()
        : AlarmState.NORMAL;
  }

  private String detail(Cause cause) {
    return out.details().of(cause).orElseThrow();
  }

  /** The same words in the event that raised the alarm. */
  private Optional<String> told(Cause cause) {
    return events.stream()
        .filter(ScanEvent.AlarmChanged.class::isInstance)
        .map(ScanEvent.AlarmChanged.class::cast)
        .filter(e -> e.alarm() == cause && e.to() == AlarmState.UNACKNOWLEDGED)
        .findFirst()
        .flatMap(ScanEvent.AlarmChanged::detail);
  }

  private static final String AGAIN =
      " It counts again once it has been good for some minutes without a break, 4 at most.";

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ORP_MV  | 2040 | ORP_FAILURE   | Open circuit: ORP read 20\\d\\d mV, outside 100 mV to 1000"
            + " mV \\(orp.range_min, orp.range_max\\), more than a sound electrode gives.",
        "ORP_MV  | 1    | ORP_FAILURE   | Short circuit: ORP read [012] mV, and the electrode as"
            + " wired gives nothing: 5 mV or less.",
        "ORP_MV  | 1100 | ORP_FAILURE   | Out of range: ORP read 1\\d\\d\\d mV, outside 100 mV to 1000"
            + " mV \\(orp.range_min, orp.range_max\\).",
        "PH_MV   | 900  | PH_FAILURE    | Open circuit: pH read -8.\\d\\d, outside 4.00 to 10.00"
            + " \\(ph.range_min, ph.range_max\\), more than a sound electrode gives.",
        "PH_MV   | 150  | PH_FAILURE    | Too fast: pH read 4.\\d\\d after 7.\\d\\d, faster than"
            + " 0.05 a second \\(ph.rate_max\\).",
        "WATER_C | 85   | WATER_FAILURE | Out of range: The water temperature read 8\\d.\\d °C,"
            + " outside -2.0 °C to 50.0 °C \\(thermometer.range_min, thermometer.range_max\\).",
      })
  void aFaultIsNamedWithValueAndLimit(Role role, double value, Cause cause, String detail) {
    scan(900);
    assertTrue(out.permission().chlorine() == limnostat.safety.Effect.NONE, () -> "" + out);
    for (int i = 0; i < 60; i++) {
      // Back and forth, so that the jump itself is never believed.
      signals.put(role, new Signal.Analog(role == Role.PH_MV && i % 2 == 1 ? -25 : value));
      scan(role == Role.PH_MV && value == 150 ? SCAN_S : 5 * SCAN_S);
    }
    assertTrue(active(cause), () -> "" + out.measured());
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(cause));
    String said = detail(cause);
    assertTrue(said.matches(detail + AGAIN), said);
    assertEquals(Optional.of(said), told(cause));
    double fallback = out.demand().fallbackDuty();
    double duty = out.permission().trim(Output.CHLORINE, out.demand().chlorineDuty(), fallback);
    assertTrue(duty <= fallback, () -> duty + " of " + fallback);
    well();
    scan(200);
    assertTrue(active(cause), "not good for long enough");
    assertEquals(said, detail(cause), "the words stand still");
    scan(100);
    assertFalse(active(cause), () -> "" + out.measured());
    scan(65);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, alarm(cause));
    assertEquals(Optional.empty(), out.details().of(cause));
  }

  @Test
  void aSignalThatIsGoneAndOneThatIsFrozenAreNamed() {
    scan(900);
    signals.put(Role.ORP_MV, new Signal.Missing("unplugged"));
    scan(120);
    assertEquals(
        "Stale: ORP has had no signal, or one too seldom, for more than 60 s (orp.stale_after)."
            + AGAIN,
        detail(Cause.ORP_FAILURE));
    well();
    scan(600);
    frozen = Set.of(Role.PH_MV);
    scan(3700);
    String said = detail(Cause.PH_FAILURE);
    assertTrue(
        said.matches(
            "Frozen: pH has stayed within 0.0005 of 7.4\\d for 60 min \\(ph.freeze_band,"
                + " ph.freeze_after\\)."
                + AGAIN),
        said);
    assertEquals(0, out.outputs().acid());
  }

  /** Good for one scan a minute: it is as blind as one that is gone, and nothing is given back. */
  @Test
  void aProbeThatFlapsGivesNothingOfTheBudgetBack() {
    scan(900);
    double leftMgL = BLIND_FEED_MG_L;
    commands.add(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.9)));
    for (int minute = 0; minute < 70; minute++) {
      signals.put(Role.ORP_MV, new Signal.Missing("loose"));
      scan(55);
      assertTrue(minute < 2 || active(Cause.ORP_FAILURE), "minute " + minute);
      well();
      scan(SCAN_S);
      assertTrue(minute < 2 || active(Cause.ORP_FAILURE), "minute " + minute);
      assertTrue(minute < 2 || active(Cause.FEEDING_BLIND), "minute " + minute);
      double nowMgL = state.safety().blind().leftMgL(BLIND_FEED_MG_L);
      assertTrue(minute < 2 || nowMgL <= leftMgL, "minute " + minute + ": " + nowMgL);
      leftMgL = nowMgL;
    }
    assertTrue(leftMgL < BLIND_FEED_MG_L, "nothing was fed");
  }

  /** Neither a restart nor a gap makes a probe sound. */
  @Test
  void aFailedProbeIsStillOneAfterARestart() throws IOException {
    scan(900);
    signals.put(Role.ORP_MV, new Signal.Missing("loose"));
    scan(120);
    state = SavedState.read(SavedState.write(state)).resumed(settings());
    well();
    scan(120);
    assertTrue(active(Cause.ORP_FAILURE));
    scan(240);
    assertFalse(active(Cause.ORP_FAILURE));
  }

  /** Nobody looked during a gap, so none of it counts as good. */
  @Test
  void aGapIsNoTimeInWhichAProbeWasGood() {
    freshWaterS = 0;
    scan(900);
    signals.put(Role.ORP_MV, new Signal.Missing("loose"));
    scan(120);
    well();
    gapS = 7200;
    scan(SCAN_S);
    assertTrue(active(Cause.INTERRUPTED));
    assertTrue(active(Cause.ORP_FAILURE));
    scan(235);
    assertTrue(active(Cause.ORP_FAILURE));
    scan(SCAN_S);
    assertFalse(active(Cause.ORP_FAILURE));
  }

  /** The stand-in enters the filter, and what it may be off by with it. */
  @Test
  void aFailedThermometerGivesWayToItsStandIn() {
    scan(3600);
    assertEquals(20, state.estimate().waterC(), 1);
    ScanState before = state;
    random.setSeed(5);
    scan(6 * 3600);
    double knownSd = out.estimate().freeChlorineSdMgL() / out.estimate().freeChlorineMgL();
    state = before;
    signals.put(Role.WATER_C, new Signal.Missing("unplugged"));
    random.setSeed(5);
    scan(120);
    assertEquals(28, state.estimate().waterC());
    assertTrue(active(Cause.WATER_FAILURE));
    assertTrue(
        detail(Cause.WATER_FAILURE).startsWith("Stale: The water temperature has had no signal"));
    scan(6 * 3600 - 120);
    double blindSd = out.estimate().freeChlorineSdMgL() / out.estimate().freeChlorineMgL();
    assertTrue(blindSd > knownSd * 1.005, blindSd + " not above " + knownSd);
  }

  @Test
  void aWornProbeIsToldUntilTheFileSaysOtherwise() {
    phCalibration = new PhCalibration(-3, 0.88);
    orpOffsetMv = 32;
    scan(900);
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(Cause.PROBE_WORN));
    String said = detail(Cause.PROBE_WORN);
    assertEquals(
        "The ORP probe reads 32 mV beside the standard (orp.offset): maintenance required beyond 20"
            + " mV, failure beyond 50. The pH electrode has a slope of 88.0 % of Nernst's and an"
            + " offset of -3.0 mV (ph.buffers): out of specification. Good are 95 to 102 % and up"
            + " to 15 mV.",
        said);
    assertEquals(Optional.of(said), told(Cause.PROBE_WORN));
    assertEquals(limnostat.safety.Effect.NONE, out.permission().chlorine());
    phCalibration = PhCalibration.IDEAL;
    orpOffsetMv = 0;
    state = state.resumed(settings());
    scan(70);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, alarm(Cause.PROBE_WORN));
  }

  @Test
  void anOldCalibrationIsTold() {
    orpAge = new CalibrationAge(OptionalDouble.of(START - 181 * 86_400), 180 * 86_400);
    phAge = new CalibrationAge(OptionalDouble.of(START + 3 * 86_400), 90 * 86_400);
    scan(900);
    String said = detail(Cause.CALIBRATION_DUE);
    assertEquals(
        "The ORP probe was calibrated more than 180 days ago, or its date lies ahead"
            + " (orp.calibrated, orp.calibrate_every). The pH electrode was calibrated more than 90"
            + " days ago, or its date lies ahead (ph.calibrated, ph.calibrate_every).",
        said);
    assertEquals(Optional.of(said), told(Cause.CALIBRATION_DUE));
    assertEquals("maintenance required", out.measured().orpMv().status().term());
    assertEquals(limnostat.safety.Effect.NONE, out.permission().chlorine());
  }

  private void testPh(double ph) {
    commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.PH, ph)));
  }

  @Test
  void twoTestsThatContradictTheElectrodeHoldAcid() throws IOException {
    scan(900);
    testPh(8.0);
    scan(600);
    assertFalse(active(Cause.PH_DISAGREES));
    testPh(8.1);
    scan(SCAN_S);
    assertTrue(active(Cause.PH_DISAGREES));
    assertTrue(out.permission().held(Output.ACID));
    assertFalse(out.permission().held(Output.CHLORINE));
    scan(65);
    String said = detail(Cause.PH_DISAGREES);
    assertTrue(
        said.matches(
            "The last test read pH 8.10 where the electrode said 7.4\\d, more than 0.3 apart, and"
                + " the test before it differed to the same side."),
        said);
    assertEquals(Optional.of(said), told(Cause.PH_DISAGREES));
    assertEquals("maintenance required", out.measured().ph().status().term());
    state = SavedState.read(SavedState.write(state)).resumed(settings());
    scan(900);
    assertTrue(active(Cause.PH_DISAGREES), "it survives a restart");
    testPh(7.5);
    scan(SCAN_S);
    assertFalse(active(Cause.PH_DISAGREES));
    scan(65);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, alarm(Cause.PH_DISAGREES));
  }

  /** S1 hangs on the switch: it must be seen to open once the pump has stopped. */
  @Test
  void aFlowSwitchThatSticksProvesNothingAnyMore() throws IOException {
    pumpSign = PumpSign.CONTACT;
    scan(900);
    signals.put(Role.PUMP_ON, new Signal.Contact(false));
    scan(175);
    assertFalse(active(Cause.FLOW_STUCK));
    scan(SCAN_S);
    assertTrue(active(Cause.FLOW_STUCK));
    scan(65);
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(Cause.FLOW_STUCK));
    signals.put(Role.PUMP_ON, new Signal.Contact(true));
    scan(3600);
    assertEquals(0, out.outputs().chlorine());
    assertTrue(active(Cause.FLOW_STUCK), "the pump runs, but nothing was proved");
    state = SavedState.read(SavedState.write(state)).resumed(settings());
    scan(3600);
    assertTrue(active(Cause.FLOW_STUCK), "it survives a restart");
    signals.put(Role.FLOW, new Signal.Missing("cut"));
    scan(60);
    assertTrue(active(Cause.FLOW_STUCK), "a signal that is gone has not shown that flow stops");
    signals.put(Role.FLOW, new Signal.Contact(false));
    scan(SCAN_S);
    assertFalse(active(Cause.FLOW_STUCK));
    signals.put(Role.FLOW, new Signal.Contact(true));
    double given = state.chlorine().account().given();
    scan(600);
    assertTrue(state.chlorine().account().given() > given, "free again");
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, alarm(Cause.FLOW_STUCK));
  }

  @Test
  void aFlowThatStopsWithThePumpIsNoFault() {
    pumpSign = PumpSign.CONTACT;
    for (int i = 0; i < 5; i++) {
      signals.put(Role.PUMP_ON, new Signal.Contact(true));
      signals.put(Role.FLOW, new Signal.Contact(true));
      scan(900);
      signals.put(Role.PUMP_ON, new Signal.Contact(false));
      scan(170);
      signals.put(Role.FLOW, new Signal.Contact(false));
      scan(900);
      assertFalse(active(Cause.FLOW_STUCK));
    }
    assertEquals(AlarmState.NORMAL, alarm(Cause.FLOW_STUCK));
  }

  /** Gravity, a solar circuit, or no contact: nobody can tell. */
  @Test
  void whereNothingTellsOfThePumpNothingIsHeld() {
    signals.put(Role.PUMP_ON, new Signal.Contact(false));
    scan(3600);
    assertFalse(active(Cause.FLOW_STUCK));
  }

  /** A contact that cannot be read holds as an open one does, but proves no flow switch wrong. */
  @Test
  void aContactThatCannotBeReadProvesNothing() {
    pumpSign = PumpSign.CONTACT;
    signals.put(Role.PUMP_ON, new Signal.Missing("cut"));
    scan(3600);
    assertTrue(active(Cause.PUMP_OFF));
    assertFalse(active(Cause.FLOW_STUCK));
  }

  @Test
  void aMeterThatReadsTooMuchIsNoFlow() {
    flowSensor = new FlowSensor.Meter(50, 1200);
    signals.put(Role.FLOW, new Signal.Analog(200));
    scan(900);
    assertFalse(active(Cause.NO_FLOW));
    signals.put(Role.FLOW, new Signal.Analog(5000));
    scan(600);
    assertTrue(active(Cause.NO_FLOW));
    assertEquals(0, out.outputs().chlorine());
    assertEquals(
        "The flow signal: the meter reads more than the 1200 L/min of flow.maximum.",
        detail(Cause.FLOW_MISSING));
    signals.put(Role.FLOW, new Signal.Analog(200));
    scan(600);
    assertFalse(active(Cause.FLOW_MISSING));
  }
}
