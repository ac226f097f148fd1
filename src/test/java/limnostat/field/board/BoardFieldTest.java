package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.FutureTask;
import java.util.concurrent.atomic.AtomicInteger;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.config.FieldSettings.Board;
import limnostat.config.FieldSettings.LineIn;
import limnostat.config.FieldSettings.LineOut;
import limnostat.config.FieldSettings.OneWire;
import limnostat.config.FieldSettings.Pull;
import limnostat.config.FieldSettings.PulseIn;
import limnostat.field.FieldException;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The whole field over Pi4J's mock devices and a tree of files in place of sysfs. */
class BoardFieldTest {
  private static final int CHLORINE = 17;
  private static final int ACID = 27;
  private static final int PUMP = 22;
  private static final int FLOW = 5;
  private static final int TANK = 6;
  private static final Outputs CHLORINE_ON = new Outputs(1, 0, true);
  private static final Outputs ACID_ON = new Outputs(0, 1, true);

  private final TestBoard board = new TestBoard();
  @TempDir Path sysfs;
  private BoardField field;

  @AfterEach
  void close() {
    board.hangEnds.countDown();
    if (field != null) {
      field.close();
    }
  }

  private Board relays(boolean activeLow) {
    return new Board(
        1,
        Map.of(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        Map.of(
            Output.CHLORINE, new LineOut(CHLORINE, activeLow),
            Output.ACID, new LineOut(ACID, activeLow)),
        Optional.of(new LineOut(PUMP, activeLow)),
        sysfs);
  }

  private Board heartbeat() {
    return new Board(
        1,
        Map.of(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        Map.of(Output.CHLORINE, new LineOut(CHLORINE, false)),
        Optional.empty(),
        OptionalInt.of(PUMP),
        sysfs);
  }

  @Test
  void theHeartbeatChangesWithEachBeatAndRestsLow() throws FieldException {
    open(heartbeat());
    assertEquals(DigitalState.LOW, board.outputs.get(PUMP).state());
    for (int i = 0; i < 5; i++) {
      field.beat();
      assertEquals(
          i % 2 == 0 ? DigitalState.HIGH : DigitalState.LOW, board.outputs.get(PUMP).state());
      field.write(Outputs.OFF);
    }
    assertEquals(DigitalState.HIGH, board.outputs.get(PUMP).state(), "a write leaves it alone");
    field.off();
    assertEquals(DigitalState.LOW, board.outputs.get(PUMP).state());
    field.beat();
    field.close();
    assertEquals(DigitalState.LOW, board.outputs.get(PUMP).state());
    assertThrows(FieldException.class, field::beat, "no beat after the end");
  }

  @Test
  void aBeatThatIsNotShownIsAnError() throws FieldException {
    open(heartbeat());
    board.outputsFail = true;
    String message = assertThrows(FieldException.class, field::beat).getMessage();
    assertTrue(message.contains("heartbeat") && message.contains("" + PUMP), message);
  }

  @Test
  void withoutAHeartbeatABeatDoesNothing() throws FieldException {
    open(relays(false));
    int before = board.commands.size();
    field.beat();
    assertEquals(before, board.commands.size());
  }

  private Board contacts(boolean activeLow, Pull pull) {
    return new Board(
        1,
        Map.of(),
        Optional.empty(),
        Map.of(
            Role.FLOW, new LineIn(FLOW, activeLow, pull),
            Role.TANK_LOW, new LineIn(TANK, activeLow, pull)),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        sysfs);
  }

  private Board pulses() {
    return new Board(
        1,
        Map.of(),
        Optional.empty(),
        Map.of(),
        Optional.of(new PulseIn(FLOW, 10)),
        Map.of(),
        Optional.empty(),
        sysfs);
  }

  private Board probes() {
    return new Board(
        1,
        Map.of(
            Role.ORP_MV, new AdcInput(0x48, 0, 4096, 0, 1),
            Role.PH_MV, new AdcInput(0x48, 1, 4096, 0, 1),
            Role.CELL_A, new AdcInput(0x49, 0, 4096, 0, 100)),
        Optional.of(new OneWire("28-a")),
        Map.of(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        sysfs);
  }

  private void open(Board settings) throws FieldException {
    BoardField.Timing timing =
        new BoardField.Timing(new Sampler.Pace(5, 3_000), new Sampler.Pace(5, 12_000));
    field = BoardField.open(settings, board::context, timing, board.nowNs::get);
  }

  private Signal read(Role role) {
    return field.read(board.nowNs.get() / 1e9, 0).of(role);
  }

  private String missing(Role role) {
    return assertInstanceOf(Signal.Missing.class, read(role)).reason();
  }

  private DigitalState level(int line) {
    return board.outputs.get(line).state();
  }

  // ---- relays

  @ParameterizedTest
  @CsvSource({"false, LOW, HIGH", "true, HIGH, LOW"})
  void drivesRelaysByTheirPolarity(boolean activeLow, DigitalState off, DigitalState on)
      throws FieldException {
    open(relays(activeLow));
    for (int line : new int[] {CHLORINE, ACID, PUMP}) {
      assertEquals(off, board.outputs.get(line).config().initialState());
      assertEquals(off, board.outputs.get(line).config().shutdownState());
      assertEquals(off, level(line), "off as soon as it is open");
    }
    field.write(CHLORINE_ON);
    assertEquals(List.of(on, off, on), List.of(level(CHLORINE), level(ACID), level(PUMP)));
    field.write(ACID_ON);
    assertEquals(List.of(off, on, on), List.of(level(CHLORINE), level(ACID), level(PUMP)));
    field.write(Outputs.OFF);
    assertEquals(List.of(off, off, off), List.of(level(CHLORINE), level(ACID), level(PUMP)));
    field.write(CHLORINE_ON);
    field.off();
    assertEquals(List.of(off, off, off), List.of(level(CHLORINE), level(ACID), level(PUMP)));
    field.write(ACID_ON);
    field.close();
    assertEquals(List.of(off, off, off), List.of(level(CHLORINE), level(ACID), level(PUMP)));
  }

  @Test
  void turnsOneOffBeforeItTurnsTheOtherOn() throws FieldException {
    open(relays(false));
    for (Outputs outputs : List.of(CHLORINE_ON, ACID_ON, CHLORINE_ON)) {
      board.commands.clear();
      field.write(outputs);
      int off = board.commands.indexOf((outputs.acid() == 1 ? CHLORINE : ACID) + "=LOW");
      int on = board.commands.indexOf((outputs.acid() == 1 ? ACID : CHLORINE) + "=HIGH");
      assertTrue(off >= 0 && off < on, board.commands.toString());
    }
  }

  @Test
  void drivesOnChangeAndReassertsWithinAMinute() throws FieldException {
    open(relays(false));
    field.write(CHLORINE_ON);
    board.commands.clear();
    for (int s = 0; s < 59; s++) {
      board.advanceS(1);
      field.write(CHLORINE_ON);
    }
    assertEquals(List.of(), board.commands);
    board.advanceS(1);
    field.write(CHLORINE_ON);
    assertEquals(3, board.commands.size(), board.commands.toString());
  }

  @Test
  void drivesAgainAfterOff() throws FieldException {
    open(relays(false));
    field.write(CHLORINE_ON);
    field.off();
    field.write(CHLORINE_ON);
    assertEquals(DigitalState.HIGH, level(CHLORINE));
  }

  @Test
  void tellsALineThatDoesNotShowItsLevel() throws FieldException {
    open(relays(false));
    field.write(CHLORINE_ON);
    board.outputsLie = true;
    String message = message(CHLORINE_ON);
    assertTrue(
        message.contains("GPIO output line 27 (acid) shows HIGH after it was driven LOW"), message);
    assertEquals(1, field.problems().size(), field.problems().toString());
    board.outputsLie = false;
    field.write(CHLORINE_ON);
    assertEquals(List.of(), field.problems());
  }

  @Test
  void turnsNothingOnWhenTheOtherDoesNotGoOff() throws FieldException {
    open(relays(false));
    field.write(ACID_ON);
    board.outputsFail = true;
    String message = message(CHLORINE_ON);
    assertTrue(message.contains("line 27 (acid) cannot be driven LOW: line refuses"), message);
    assertEquals(DigitalState.LOW, level(CHLORINE));
  }

  @Test
  void offNeverThrowsAndTriesEveryLine() throws FieldException {
    open(relays(true));
    field.write(CHLORINE_ON);
    board.outputsFail = true;
    assertDoesNotThrow(field::off);
    board.outputsFail = false;
    board.commands.clear();
    field.off();
    assertEquals(
        List.of("17=HIGH", "22=HIGH", "27=HIGH"), board.commands.stream().sorted().toList());
  }

  @Test
  void offComesFromAnyThreadWhileTheScanWrites() throws Exception {
    open(relays(false));
    FutureTask<Void> writer =
        new FutureTask<>(
            () -> {
              for (int i = 0; i < 500; i++) {
                field.write(CHLORINE_ON);
                field.write(ACID_ON);
              }
              return null;
            });
    new Thread(writer).start();
    while (!writer.isDone()) {
      field.off();
    }
    writer.get();
    field.off();
    assertEquals(DigitalState.LOW, level(CHLORINE));
    assertEquals(DigitalState.LOW, level(ACID));
  }

  @Test
  void failsToWriteUntilARefusedLineIsThere() throws FieldException {
    board.outputsRefused = true;
    open(relays(false));
    String message = message(Outputs.OFF);
    assertTrue(message.contains("GPIO output line 17 (chlorine) cannot be opened"), message);
    assertTrue(message.contains("Device or resource busy"), message);
    assertEquals(3, field.problems().size());

    board.outputsRefused = false;
    message(Outputs.OFF);
    board.advanceS(1);
    field.write(CHLORINE_ON);
    assertEquals(DigitalState.HIGH, level(CHLORINE));
    assertEquals(List.of(), field.problems());
  }

  @Test
  void saysInPlainWordsThatThisIsNoBoard() throws FieldException {
    board.outputsRefused = true;
    open(relays(false));
    assertTrue(message(Outputs.OFF).contains("this machine is no board that Pi4J knows"));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.5, -1, 2, Double.NaN})
  void refusesWhatIsNeitherOnNorOff(double value) throws FieldException {
    open(relays(false));
    assertTrue(message(new Outputs(value, 0, false)).contains("a relay is 0 or 1"));
    assertEquals(DigitalState.LOW, level(CHLORINE));
  }

  @Test
  void refusesAnOutputWithoutALine() throws FieldException {
    open(contacts(false, Pull.NONE));
    field.write(new Outputs(0, 0, true));
    assertTrue(message(ACID_ON).contains("no relay line is configured"));
  }

  @Test
  void isOffForGoodOnceClosed() throws FieldException {
    open(relays(false));
    field.write(CHLORINE_ON);
    field.close();
    assertTrue(message(CHLORINE_ON).contains("closed"));
    assertDoesNotThrow(field::off);
    assertDoesNotThrow(field::close);
    assertEquals(DigitalState.LOW, level(CHLORINE));
  }

  private String message(Outputs outputs) {
    return assertThrows(FieldException.class, () -> field.write(outputs)).getMessage();
  }

  // ---- contacts and pulses

  @ParameterizedTest
  @CsvSource({"false, HIGH, true", "false, LOW, false", "true, HIGH, false", "true, LOW, true"})
  void readsContactsByTheirPolarity(boolean activeLow, DigitalState level, boolean closed)
      throws FieldException {
    open(contacts(activeLow, Pull.UP));
    board.inputs.get(FLOW).mockState(level);
    assertEquals(new Signal.Contact(closed), read(Role.FLOW));
  }

  @ParameterizedTest
  @CsvSource({"NONE, OFF", "UP, PULL_UP", "DOWN, PULL_DOWN"})
  void asksForThePullResistor(Pull pull, PullResistance expected) throws FieldException {
    open(contacts(false, pull));
    assertEquals(2, board.inputConfigs.size());
    board.inputConfigs.forEach(config -> assertEquals(expected, config.pull()));
  }

  @Test
  void reportsEdgesOfTheFlowContactAndOfNoOther() throws FieldException {
    open(contacts(true, Pull.UP));
    AtomicInteger edges = new AtomicInteger();
    field.onFlowEdge(edges::incrementAndGet);
    board.inputs.get(FLOW).mockState(DigitalState.HIGH);
    board.inputs.get(FLOW).mockState(DigitalState.LOW);
    board.inputs.get(TANK).mockState(DigitalState.HIGH);
    assertEquals(2, edges.get());
  }

  @Test
  void opensALineAnewWhoseEdgesAreLost() throws FieldException {
    open(contacts(false, Pull.UP));
    AtomicInteger edges = new AtomicInteger();
    field.onFlowEdge(edges::incrementAndGet);
    read(Role.FLOW);
    board.edgesLost = true;
    board.inputs.get(FLOW).mockState(DigitalState.HIGH);
    assertEquals(new Signal.Contact(true), read(Role.FLOW));
    assertEquals(2, board.inputConfigs.size(), "the edge may be on its way");
    assertEquals(new Signal.Contact(true), read(Role.FLOW));
    assertEquals(3, board.inputConfigs.size(), "opened anew");

    board.edgesLost = false;
    board.inputs.get(FLOW).mockState(DigitalState.LOW);
    assertEquals(1, edges.get());
    assertEquals(new Signal.Contact(false), read(Role.FLOW));
    assertEquals(new Signal.Contact(false), read(Role.FLOW));
    assertEquals(3, board.inputConfigs.size());
  }

  @Test
  void leavesALineAloneWhoseEdgeComesLateOrNeverStayed() throws FieldException {
    open(contacts(false, Pull.UP));
    read(Role.FLOW);
    board.edgesLost = true;
    board.inputs.get(FLOW).mockState(DigitalState.HIGH);
    read(Role.FLOW);
    board.inputs.get(FLOW).mockState(DigitalState.LOW);
    read(Role.FLOW);
    assertEquals(2, board.inputConfigs.size(), "a blip within the debounce time");

    board.inputs.get(FLOW).mockState(DigitalState.HIGH);
    read(Role.FLOW);
    board.edgesLost = false;
    board.inputs.get(FLOW).mockState(DigitalState.LOW);
    board.inputs.get(FLOW).mockState(DigitalState.HIGH);
    read(Role.FLOW);
    assertEquals(2, board.inputConfigs.size(), "edges after the read");
  }

  @Test
  void missesARefusedInputLineUntilItIsThere() throws FieldException {
    board.inputsRefused = true;
    open(contacts(false, Pull.UP));
    assertTrue(missing(Role.FLOW).contains("GPIO input line 5 (flow) cannot be opened"));
    assertTrue(missing(Role.FLOW).contains("Invalid argument"));
    assertEquals(2, field.problems().size());
    board.inputsRefused = false;
    board.advanceS(1);
    assertEquals(new Signal.Contact(false), read(Role.FLOW));
    assertEquals(new Signal.Contact(false), read(Role.TANK_LOW));
    assertEquals(List.of(), field.problems());
  }

  @Test
  void countsPulsesIntoFlow() throws FieldException {
    open(pulses());
    assertTrue(missing(Role.FLOW).contains("first interval"));
    for (int i = 0; i < 30; i++) {
      board.inputs.get(FLOW).mockState(DigitalState.HIGH);
      board.inputs.get(FLOW).mockState(DigitalState.LOW);
    }
    board.advanceS(2);
    // 30 pulses are 3 L, in 2 s
    Signal.Analog flow = assertInstanceOf(Signal.Analog.class, read(Role.FLOW));
    assertEquals(90, flow.value(), 1e-6);
    board.advanceS(60);
    assertEquals(new Signal.Analog(0), read(Role.FLOW));
    assertEquals(PullResistance.PULL_UP, board.inputConfigs.get(0).pull());
    assertEquals(0, board.inputConfigs.get(0).debounce());
  }

  // ---- buses

  @Test
  void readsProbesAndThermometer() throws Exception {
    board.code(0x48, 0, 5600);
    board.code(0x48, 1, -160);
    board.code(0x49, 0, 4000);
    thermometer("72 01 4b 46 7f ff 0e 10 57 : crc=57 YES\n72 01 4b 46 7f ff 0e 10 57 t=23125\n");
    open(probes());
    TestBoard.await("every probe", () -> field.problems().isEmpty());
    assertEquals(new Signal.Analog(700), read(Role.ORP_MV));
    assertEquals(new Signal.Analog(-20), read(Role.PH_MV));
    assertEquals(new Signal.Analog(5), read(Role.CELL_A));
    assertEquals(new Signal.Analog(23.125), read(Role.WATER_C));
    assertEquals(List.of(0x48, 0x49), board.i2cCreated.stream().sorted().toList());
  }

  @Test
  void aBusThatHangsIsMissingAndHoldsNothingUp() throws Exception {
    thermometer("72 01 4b 46 7f ff 0e 10 57 : crc=57 YES\n72 01 4b 46 7f ff 0e 10 57 t=23125\n");
    open(probes());
    TestBoard.await("every probe", () -> field.problems().isEmpty());
    board.bus = TestBoard.Bus.HANGS;
    board.hangBegins.await();
    board.advanceS(4);
    TestBoard.await("a new temperature", () -> read(Role.WATER_C) instanceof Signal.Analog);
    assertTimeoutPreemptively(
        Duration.ofMillis(200),
        () -> assertTrue(missing(Role.ORP_MV).contains("no reading from the I2C bus 1 for 4 s")));
    assertTrue(missing(Role.CELL_A).contains("power-cycle"));

    board.bus = TestBoard.Bus.WELL;
    board.hangEnds.countDown();
    TestBoard.await("the bus back", () -> field.problems().isEmpty());
  }

  @Test
  void aHungBusDoesNotHoldUpTheWayOut() throws Exception {
    board.bus = TestBoard.Bus.HANGS;
    open(probes());
    assertTrue(missing(Role.ORP_MV).contains("first reading"));
    assertTimeoutPreemptively(Duration.ofSeconds(4), field::close);
  }

  @Test
  void missesAnAbsentBusByNameAndGoesOn() throws Exception {
    board.bus = TestBoard.Bus.ABSENT;
    open(probes());
    TestBoard.await(
        "the reason", () -> missing(Role.ORP_MV).contains("I2C bus 1 address 0x48: path"));
    TestBoard.await("the thermometer", () -> missing(Role.WATER_C).contains("28-a"));
    board.bus = TestBoard.Bus.WELL;
    board.advanceS(1);
    TestBoard.await("the probe", () -> read(Role.ORP_MV) instanceof Signal.Analog);
  }

  @Test
  void readsNothingOnceClosed() throws FieldException {
    open(contacts(false, Pull.UP));
    field.close();
    assertTrue(missing(Role.FLOW).contains("closed"));
  }

  private void thermometer(String text) throws IOException {
    Path device = Files.createDirectories(sysfs.resolve("bus/w1/devices/28-a"));
    Files.writeString(device.resolve("w1_slave"), text);
  }
}
