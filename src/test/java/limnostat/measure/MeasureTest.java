package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

class MeasureTest {
  private static final Set<Role> ALL = Set.of(Role.values());

  private static MeasureSettings settings(FlowSensor flow, Set<Role> fitted) {
    return new MeasureSettings(
        new ProbeSettings(-500, 1200, 5, 0, 0, 60),
        -12,
        new ProbeSettings(3, 11, 0.05, 0, 0, 60),
        PhCalibration.IDEAL,
        new ProbeSettings(0, 45, 0.2, 0, 0, 60),
        10,
        flow,
        120,
        fitted);
  }

  private static final MeasureSettings SWITCH = settings(new FlowSensor.Switch(), ALL);
  private static final MeasureSettings METER = settings(new FlowSensor.Meter(40, 1200), ALL);

  private static Map<Role, Signal> good() {
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.ORP_MV, new Signal.Analog(700));
    signals.put(Role.PH_MV, new Signal.Analog(-30));
    signals.put(Role.WATER_C, new Signal.Analog(25));
    signals.put(Role.FLOW, new Signal.Contact(true));
    signals.put(Role.PUMP_ON, new Signal.Contact(true));
    signals.put(Role.CELL_A, new Signal.Analog(5));
    signals.put(Role.TANK_LOW, new Signal.Contact(false));
    signals.put(Role.ACID_TANK_LOW, new Signal.Contact(false));
    return signals;
  }

  private static Measurements once(MeasureSettings settings, Map<Role, Signal> signals) {
    MeasureState flowed =
        new MeasureState(
            Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, 500, PhCheck.START);
    return Measure.step(settings, flowed, Signals.of(signals), 1).measurements();
  }

  private static Measurements flow(MeasureSettings settings, Signal flow) {
    Map<Role, Signal> signals = good();
    signals.put(Role.FLOW, flow);
    return once(settings, signals);
  }

  private static void assertNoFlow(String reason, Measurements measured) {
    assertFalse(measured.flow());
    assertEquals(Optional.of(reason), measured.flowMissing());
    assertEquals(-1, measured.flowS());
    assertFalse(measured.poolWater());
  }

  @Test
  void aSwitchTellsOfFlow() {
    assertTrue(flow(SWITCH, new Signal.Contact(true)).flow());
    Measurements open = flow(SWITCH, new Signal.Contact(false));
    assertFalse(open.flow());
    assertEquals(Optional.empty(), open.flowMissing());
  }

  @Test
  void aMeterTellsOfFlowFromItsMinimumOn() {
    assertTrue(flow(METER, new Signal.Analog(40)).flow());
    assertFalse(flow(METER, new Signal.Analog(Math.nextDown(40.0))).flow());
    assertFalse(flow(METER, new Signal.Analog(-100)).flow());
  }

  @Test
  void aMeterThatReadsMoreThanCanBeTellsNothing() {
    assertTrue(flow(METER, new Signal.Analog(1200)).flow());
    assertNoFlow(
        "the meter reads more than the 1200 L/min of flow.maximum",
        flow(METER, new Signal.Analog(1200.1)));
  }

  @Test
  void aMissingFlowSignalIsNoFlowWithItsReason() {
    assertNoFlow("line broken", flow(SWITCH, new Signal.Missing("line broken")));
    assertNoFlow("line broken", flow(METER, new Signal.Missing("line broken")));
    Map<Role, Signal> signals = good();
    signals.remove(Role.FLOW);
    assertNoFlow("not read on this scan", once(SWITCH, signals));
  }

  @Test
  void theWrongKindOfSignalIsNoFlow() {
    assertNoFlow(
        "a meter's value where a switch is configured", flow(SWITCH, new Signal.Analog(100)));
    assertNoFlow(
        "a switch's state where a meter is configured", flow(METER, new Signal.Contact(true)));
  }

  @Test
  void aFlowThatIsNoNumberIsNoFlow() {
    for (double value : new double[] {Double.NaN, Double.POSITIVE_INFINITY}) {
      assertNoFlow("not a finite number", flow(METER, new Signal.Analog(value)));
    }
  }

  /** The first scan with flow has seen none of it yet; 120 s make pool water. */
  @Test
  void freshWaterTakesUnbrokenFlow() {
    Signals flowing = Signals.of(good());
    Map<Role, Signal> still = good();
    still.put(Role.FLOW, new Signal.Contact(false));
    Measure.Result result = Measure.step(SWITCH, MeasureState.START, flowing, 1e6);
    assertEquals(0, result.measurements().flowS(), "time before the first sight of flow");
    for (int s = 1; s < 120; s++) {
      result = Measure.step(SWITCH, result.state(), flowing, 1);
      assertFalse(result.measurements().poolWater(), s + " s");
      assertEquals(Status.FUNCTION_CHECK, result.measurements().orpMv().status());
    }
    result = Measure.step(SWITCH, result.state(), flowing, 1);
    assertTrue(result.measurements().poolWater());
    assertTrue(result.measurements().orpMv().fresh());

    result = Measure.step(SWITCH, result.state(), Signals.of(still), 1);
    assertEquals(-1, result.measurements().flowS());
    result = Measure.step(SWITCH, result.state(), flowing, 1);
    assertEquals(0, result.measurements().flowS(), "one scan without flow proves all anew");
    assertFalse(result.measurements().poolWater());
  }

  /** S(10 °C) = 56.183 mV, S(25 °C) = 59.159 mV a pH unit, computed: water-chemistry section 4. */
  @Test
  void phFollowsTheWaterOrItsStandIn() {
    assertEquals(7 + 30 / 59.159, once(SWITCH, good()).ph().orElse(0), 1e-4);
    Map<Role, Signal> signals = good();
    signals.put(Role.WATER_C, new Signal.Missing("no thermometer"));
    assertEquals(7 + 30 / 56.183, once(SWITCH, signals).ph().orElse(0), 1e-4);
    signals.put(Role.WATER_C, new Signal.Analog(-40));
    assertEquals(7 + 30 / 56.183, once(SWITCH, signals).ph().orElse(0), 1e-4, "out of range");
  }

  /** Over a short dropout the held temperature is nearer the truth than the stand-in. */
  @Test
  void phFollowsAHeldTemperature() {
    MeasureState flowed =
        new MeasureState(
            Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, 500, PhCheck.START);
    Measure.Result first = Measure.step(SWITCH, flowed, Signals.of(good()), 1);
    Map<Role, Signal> signals = good();
    signals.remove(Role.WATER_C);
    Measure.Result second = Measure.step(SWITCH, first.state(), Signals.of(signals), 1);
    assertEquals(7 + 30 / 59.159, second.measurements().ph().orElse(0), 1e-4);
  }

  @Test
  void orpOffsetIsAddedAfterTheSampleIsKnownToBeOne() {
    assertEquals(688, once(SWITCH, good()).orpMv().orElse(0));
    Map<Role, Signal> signals = good();
    signals.put(Role.ORP_MV, new Signal.Missing("no converter"));
    assertEquals(Status.FAILURE, once(SWITCH, signals).orpMv().status());
  }

  @Test
  void aContactWhereAQuantityBelongsIsNoSample() {
    Map<Role, Signal> signals = good();
    signals.put(Role.ORP_MV, new Signal.Contact(true));
    assertEquals(Status.FAILURE, once(SWITCH, signals).orpMv().status());
  }

  @Test
  void fittedContactsThatCannotBeReadTakeTheWorseState() {
    for (Signal bad : new Signal[] {new Signal.Missing("broken"), new Signal.Analog(1)}) {
      Map<Role, Signal> signals = good();
      signals.put(Role.PUMP_ON, bad);
      signals.put(Role.TANK_LOW, bad);
      signals.put(Role.ACID_TANK_LOW, bad);
      Measurements measured = once(SWITCH, signals);
      assertEquals(Optional.of(false), measured.pumpOn());
      assertTrue(measured.tankLow());
      assertTrue(measured.acidTankLow());
    }
  }

  @Test
  void whatIsNotFittedIsNotAFaultNorBelieved() {
    MeasureSettings bare = settings(new FlowSensor.Switch(), Set.of());
    Map<Role, Signal> signals = good();
    signals.put(Role.PUMP_ON, new Signal.Contact(false));
    signals.put(Role.TANK_LOW, new Signal.Contact(true));
    signals.put(Role.ACID_TANK_LOW, new Signal.Contact(true));
    Measurements measured = once(bare, signals);
    assertEquals(Optional.empty(), measured.pumpOn());
    assertEquals(OptionalDouble.empty(), measured.cellA());
    assertFalse(measured.tankLow());
    assertFalse(measured.acidTankLow());
    assertEquals(OptionalDouble.of(5), once(SWITCH, good()).cellA());
  }

  private static Outside seenOutside(MeasureSettings settings, Role role, Signal signal) {
    Map<Role, Signal> signals = good();
    signals.put(role, signal);
    return once(settings, signals).outside();
  }

  @Test
  void thePyranometersReadingIsAboveNothingAndBelowWhatTheSunCanDo() {
    for (double[] row :
        new double[][] {{0, 0}, {812.5, 812.5}, {-20, 0}, {-3, 0}, {1361, 1361}, {1500, 1500}}) {
      assertEquals(
          OptionalDouble.of(row[1]),
          seenOutside(SWITCH, Role.SOLAR_W_M2, new Signal.Analog(row[0])).solarWM2());
    }
    for (Signal bad :
        new Signal[] {
          new Signal.Analog(-20.1),
          new Signal.Analog(1500.1),
          new Signal.Analog(Double.NaN),
          new Signal.Analog(Double.POSITIVE_INFINITY),
          new Signal.Contact(true),
          new Signal.Missing("unplugged")
        }) {
      assertEquals(
          OptionalDouble.empty(), seenOutside(SWITCH, Role.SOLAR_W_M2, bad).solarWM2(), "" + bad);
    }
  }

  @Test
  void theCoverIsClosedOpenOrNotKnown() {
    for (boolean closed : new boolean[] {true, false}) {
      assertEquals(
          Optional.of(closed),
          seenOutside(SWITCH, Role.COVER_CLOSED, new Signal.Contact(closed)).coverClosed());
    }
    for (Signal bad : new Signal[] {new Signal.Analog(1), new Signal.Missing("unplugged")}) {
      assertEquals(
          Optional.empty(), seenOutside(SWITCH, Role.COVER_CLOSED, bad).coverClosed(), "" + bad);
    }
  }

  @Test
  void sunAndCoverThatAreNotFittedAreNotKnown() {
    MeasureSettings bare = settings(new FlowSensor.Switch(), Set.of());
    Map<Role, Signal> signals = good();
    signals.put(Role.SOLAR_W_M2, new Signal.Analog(500));
    signals.put(Role.COVER_CLOSED, new Signal.Contact(true));
    assertEquals(Outside.UNKNOWN, once(bare, signals).outside());
  }

  /** Nothing of a pH electrode moves but its compensation, by 2 °C in the hour: it is frozen. */
  @Test
  void aFrozenElectrodeDoesNotFollowTheThermometer() {
    MeasureSettings settings =
        new MeasureSettings(
            new ProbeSettings(-500, 1200, 5, 0, 0, 60),
            0,
            new ProbeSettings(3, 11, 0.05, 0.0005, 3600, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(0, 45, 0.2, 0, 0, 60),
            10,
            new FlowSensor.Switch(),
            0,
            ALL);
    MeasureState state = MeasureState.START;
    Map<Role, Signal> signals = good();
    Measurements last = null;
    for (int minute = 0; minute <= 60; minute++) {
      signals.put(Role.WATER_C, new Signal.Analog(25 + minute / 30.0));
      Measure.Result result = Measure.step(settings, state, Signals.of(signals), 60);
      state = result.state();
      last = result.measurements();
      assertEquals(minute < 60, last.ph().fresh(), minute + " min");
    }
    assertEquals(List.of(Plausibility.FREEZE), last.ph().failed());
  }

  private static final Moves MOVES = new Moves(0.5, 2, 1, 0.01, 0.05, 0.02);

  private static MeasureState after(double flowS, boolean flow) {
    MeasureState known =
        new MeasureState(
            Probe.Memory.BLANK,
            Probe.Memory.BLANK,
            Probe.Memory.BLANK,
            flowS,
            PhCheck.START,
            new Envelope(10, 40, 0, false, false, 0, 0, 0),
            new Envelope(5, 9, 0, false, false, 0, 0, 0));
    Map<Role, Signal> signals = good();
    signals.put(Role.FLOW, new Signal.Contact(flow));
    return Measure.step(SWITCH, known, Signals.of(signals), OptionalDouble.empty(), MOVES, 1)
        .state();
  }

  /** A heater and jets need flow. */
  @Test
  void theWaterMovesFurtherWhileItFlows() {
    assertEquals(
        new Envelope(9, 40.5, 0, false, false, -1, 0.5, 0), after(600, false).waterModel());
    assertEquals(new Envelope(9, 42.5, 0, false, false, -1, 2.5, 0), after(600, true).waterModel());
    assertEquals(9.01, after(600, false).phModel().high(), 1e-12);
    assertEquals(9.06, after(600, true).phModel().high(), 1e-12);
    assertEquals(4.98, after(600, true).phModel().low(), 1e-12);
  }

  /** 25 °C and about pH 7.5, within 3 and 0.3: from an hour of flow on. */
  @Test
  void aModelLooksOnceTheWaterHasSettled() {
    assertEquals(42.5, after(3598, true).waterModel().high());
    assertEquals(28, after(3599, true).waterModel().high());
    assertEquals(22, after(3599, true).waterModel().low());
    assertEquals(9.06, after(3598, true).phModel().high(), 1e-12);
    assertEquals(0.6, after(3599, true).phModel().high() - after(3599, true).phModel().low(), 1e-9);
  }
}
