package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.pi4j.io.gpio.digital.DigitalState;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.config.FieldSettings;
import limnostat.daemon.service.ReceivingSocket;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.field.board.BoardField;
import limnostat.field.board.TestBoard;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.mqtt.Link;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/**
 * The daemon's own path over the board's field: Pi4J's mock devices and a tree of files in place of
 * sysfs; and the packaged program on a machine that is no board.
 */
@Timeout(90)
class BoardPathIT {
  private static final int FLOW = 17;
  private static final int CHLORINE = 23;
  private static final int HEARTBEAT = 22;

  /** Steps of the converter at its range of 2048 mV. */
  private static final int CODES_PER_MV = 16;

  private static final int PH_ZERO_MV = 1024;

  @TempDir Path folder;
  private final TestBoard board = new TestBoard();

  private ConfigText wired() throws Exception {
    return ConfigText.board().with("board.sysfs", "\"" + folder.resolve("sys") + "\"");
  }

  /** Water at 25 °C, 600 mV, pH 7.2: it wants chlorine and no acid. */
  private void water() throws Exception {
    Path device = Files.createDirectories(folder.resolve("sys/bus/w1/devices/28-0123456789ab"));
    Files.writeString(
        device.resolve("w1_slave"),
        "90 01 4b 46 7f ff 0c 10 0f : crc=0f YES\n90 01 4b 46 7f ff 0c 10 0f t=25000\n");
    board.code(0x48, 0, 600 * CODES_PER_MV);
    board.code(0x48, 1, (PH_ZERO_MV - 12) * CODES_PER_MV);
  }

  private boolean on(int line) {
    return board.outputs.get(line).state() == DigitalState.HIGH;
  }

  /** The contact closes the line to ground. */
  private void flow(boolean flows) {
    board.inputs.get(FLOW).mockState(flows ? DigitalState.LOW : DigitalState.HIGH);
  }

  /** A board's field that tells when it was read. */
  private record Watched(Field field, AtomicLong reads) implements Field {
    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      reads.incrementAndGet();
      return field.read(monotonicS, unixTimeS);
    }

    @Override
    public void write(Outputs outputs) throws FieldException {
      field.write(outputs);
    }

    @Override
    public void beat() throws FieldException {
      field.beat();
    }

    @Override
    public void off() {
      field.off();
    }

    @Override
    public void onFlowEdge(Runnable callback) {
      field.onFlowEdge(callback);
    }

    @Override
    public void close() {
      field.close();
    }
  }

  private interface Story {
    void play(AtomicLong reads) throws Exception;
  }

  /** Runs the daemon on a thread of its own while a story is played. */
  private void run(ConfigText text, TestBroker broker, Story story) throws Exception {
    Configuration configuration =
        ConfigurationFile.load(text.withBroker(broker.port()).write(folder)).configuration();
    FieldSettings.Board settings = (FieldSettings.Board) configuration.field();
    Clock clock = new Clock.OfSystem();
    BootClock boot = BootClock.ofSystem(clock);
    AtomicLong reads = new AtomicLong();
    Daemon[] daemon = new Daemon[1];
    try (EventLog log = new EventLog();
        Field field = new Watched(BoardField.open(settings, board::context), reads);
        Ledger ledger = Ledger.open(configuration.ledger());
        Link link = new Link(configuration.mqtt(), configuration.siteId(), Optional.empty())) {
      link.start();
      flow(false);
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), boot);
      ScanCycle cycle =
          ScanCycle.open(
              configuration, new ScanCycle.Surroundings(field, ledger, link, boot, log), resume);
      Thread scans =
          new Thread(
              () -> {
                daemon[0] =
                    new Daemon(
                        cycle,
                        field,
                        new CommandInbox(link),
                        log,
                        ServiceNotifier.fromEnvironment(),
                        new HealthTopic(link, ledger, clock),
                        configuration.periodS());
                daemon[0].run();
              },
              "scan");
      scans.start();
      try {
        Program.await("a scan", () -> reads.get() > 0);
        story.play(reads);
      } finally {
        daemon[0].stop();
        scans.join();
      }
      assertTrue(!on(CHLORINE), "off after the stop");
    }
  }

  @Test
  void feedsOnceFlowIsProvenAndStopsWithTheFlowWithoutWaitingForTheNextPeriod() throws Exception {
    water();
    try (TestBroker broker = TestBroker.start()) {
      run(
          wired().with("scan.period", "\"5 s\"").with("ledger.readings_every", "\"5 s\""),
          broker,
          reads -> {
            assertTrue(!on(CHLORINE), "off without flow");
            Thread.sleep(500); // the converter is read twice a second
            long flowsNs = System.nanoTime();
            flow(true);
            Program.await("chlorine", () -> on(CHLORINE));
            double provenS = (System.nanoTime() - flowsNs) / 1e9;
            assertTrue(provenS > 5, "on after " + provenS + " s of the 5 s of proving");
            long before = reads.get();
            Program.await("a scan by the period", () -> reads.get() > before);
            Thread.sleep(500);
            assertTrue(on(CHLORINE) && reads.get() == before + 1, "more than 4 s to the next one");
            long lostNs = System.nanoTime();
            flow(false);
            while (on(CHLORINE) && System.nanoTime() - lostNs < 10_000_000_000L) {
              Thread.onSpinWait();
            }
            double offS = (System.nanoTime() - lostNs) / 1e9;
            Logger.info("flow lost: chlorine off after {} ms", offS * 1000);
            assertTrue(offS < 3, "off " + offS + " s after the flow went");
          });
    }
  }

  /** What a watchdog relay sees: changes while scans are whole, and none after them. */
  @Test
  void theHeartbeatChangesWithEachScanAndRestsLowAfterThem() throws Exception {
    water();
    try (TestBroker broker = TestBroker.start()) {
      run(
          wired(),
          broker,
          reads -> {
            int changes = 0;
            boolean was = on(HEARTBEAT);
            long before = reads.get();
            while (reads.get() < before + 20) {
              changes += on(HEARTBEAT) != was ? 1 : 0;
              was = on(HEARTBEAT);
              Thread.sleep(5);
            }
            assertTrue(changes >= 15 && changes <= 21, changes + " changes in 20 scans");
          });
      for (int i = 0; i < 100; i++) {
        assertTrue(!on(HEARTBEAT), "at rest");
        Thread.sleep(5);
      }
    }
  }

  @Test
  void aProbeThatGoesMissingLeavesTheLearnedDemandUntilItIsBack() throws Exception {
    water();
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker)) {
      run(
          wired().with("chlorine.min_on", "\"0.2 s\"").with("orp.stale_after", "\"1 s\""),
          broker,
          reads -> {
            flow(true);
            Program.await("chlorine", () -> on(CHLORINE));
            board.bus = TestBoard.Bus.NO_ANSWER;
            JsonNode state =
                dashboard.awaitState(s -> s.at("/limits").toString().contains("\"orp_failure\""));
            assertEquals("failure", state.at("/status/orp_mv").asText(), state.toString());
            // The learned demand of 2 mg/L a day is 100 g a day, of an output of 480 g a day.
            Program.await("the learned demand only", () -> !on(CHLORINE));
            board.bus = TestBoard.Bus.WELL;
            Program.await("chlorine", () -> on(CHLORINE));
          });
    }
  }

  @Test
  void aMachineThatIsNoBoardKeepsOutputsOffAndSaysWhatIsMissing() throws Exception {
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker)) {
      Path config = wired().with("board.i2c_bus", "77").withBroker(broker.port()).write(folder);
      String address = folder.resolve("notify").toString();
      ProcessBuilder command = Program.limnostatCommand("run", "--config", config.toString());
      command.environment().putAll(Map.of("NOTIFY_SOCKET", address, "WATCHDOG_USEC", "400000"));
      try (ReceivingSocket manager = new ReceivingSocket(address);
          Program daemon = Program.start(command)) {
        daemon.awaitLog("input orp_mv is missing: I2C bus 77 address 0x48");
        daemon.awaitLog("input water_c is missing: ");
        daemon.awaitLog("input flow is missing: GPIO input line 17");
        daemon.awaitLog(
            "outputs cannot be driven: GPIO output line 23 (chlorine) cannot be opened");
        String all = String.join("\n", daemon.err());
        assertTrue(all.contains("boot configuration"), "the mend of the bus: " + all);
        assertTrue(all.contains("this machine is no board"), "the mend of the lines: " + all);
        JsonNode alarm = dashboard.await("alarm/output_not_driven").json();
        assertEquals("critical", alarm.at("/priority").asText(), alarm.toString());
        JsonNode state =
            dashboard.awaitState(
                s -> s.at("/inhibits").findValuesAsText("cause").contains("output_not_driven"));
        assertEquals(0, state.at("/outputs/chlorine").asDouble(-1), state.toString());
        List<String> told = manager.messages();
        assertTrue(told.contains("READY=1"), told::toString);
        assertTrue(!told.contains("WATCHDOG=1"), "vouched for outputs that nobody drives: " + told);
        daemon.signal("TERM");
        assertEquals(143, daemon.exit(), daemon.err().toString());
        assertTrue(
            daemon.err().stream().anyMatch(line -> line.contains(" 0 of them late")),
            daemon.err().toString());
      }
    }
  }
}
