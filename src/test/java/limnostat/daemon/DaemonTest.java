package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.mqtt.Link;
import limnostat.rig.ConfigText;
import limnostat.scan.ScanState;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The scan thread with a field that fails: what vouches for it, and how it ends. */
@Tag("slow")
class DaemonTest {
  private static final int SCANS = 12;

  @TempDir Path folder;

  /** A field that stops the daemon after a few scans. */
  private static class Stopping implements Field {
    private final AtomicInteger reads = new AtomicInteger();
    private final AtomicInteger beats = new AtomicInteger();
    private final AtomicInteger offs = new AtomicInteger();
    private volatile Runnable stop = () -> {};

    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      if (reads.incrementAndGet() == SCANS) {
        stop.run();
      }
      return Signals.of(Map.of());
    }

    @Override
    public void write(Outputs outputs) throws FieldException {}

    @Override
    public void beat() throws FieldException {
      beats.incrementAndGet();
    }

    @Override
    public void off() {
      offs.incrementAndGet();
    }

    @Override
    public void onFlowEdge(Runnable callback) {}

    @Override
    public void close() {}
  }

  /** Runs until the field stops it; the state that is left. */
  private ScanState run(Stopping field) throws Exception {
    Path file = ConfigText.feedingSoon().withoutBroker().write(folder);
    Configuration configuration = ConfigurationFile.load(file).configuration();
    Clock clock = new Clock.OfSystem();
    BootClock boot = BootClock.ofSystem(clock);
    try (EventLog log = new EventLog(line -> {});
        Ledger ledger = Ledger.open(configuration.ledger());
        Link link = new Link(configuration.mqtt(), configuration.siteId(), Optional.empty())) {
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), boot);
      ScanCycle cycle =
          ScanCycle.open(
              configuration, new ScanCycle.Surroundings(field, ledger, link, boot, log), resume);
      Daemon daemon =
          new Daemon(
              cycle,
              field,
              new CommandInbox(link),
              log,
              ServiceNotifier.fromEnvironment(),
              new HealthTopic(link, ledger, clock),
              0.1);
      field.stop = daemon::stop;
      daemon.run();
    }
    try (Ledger ledger = Ledger.open(configuration.ledger())) {
      return SavedState.read(ledger.restored().state().orElseThrow().json());
    }
  }

  @Test
  void eachWholeScanIsABeatAndAnOrderlyStopIsKnown() throws Exception {
    Stopping field = new Stopping();
    ScanState left = run(field);
    assertEquals(SCANS, field.beats.get());
    assertEquals(ScanState.Phase.STOPPED, left.phase());
    assertTrue(field.offs.get() >= 2, "off at once and at the end");
  }

  /** The stop comes in the midst of a scan, which then turns nothing on. */
  @Test
  void nothingIsTurnedOnAfterTheStop() throws Exception {
    List<Outputs> after = new ArrayList<>();
    Stopping field =
        new Stopping() {
          @Override
          public void write(Outputs outputs) throws FieldException {
            if (super.reads.get() >= SCANS) {
              after.add(outputs);
            }
          }
        };
    run(field);
    assertEquals(List.of(Outputs.OFF), after);
  }

  /** A scan whose outputs were not driven vouches for nothing. */
  @Test
  void noBeatWhileTheOutputsAreNotDriven() throws Exception {
    Stopping field =
        new Stopping() {
          @Override
          public void write(Outputs outputs) throws FieldException {
            throw new FieldException("line gone");
          }
        };
    run(field);
    assertEquals(0, field.beats.get());
    assertEquals(SCANS, field.reads.get(), "control goes on");
  }

  @Test
  void aHeartbeatThatFailsStopsNoScan() throws Exception {
    Stopping field =
        new Stopping() {
          @Override
          public void beat() throws FieldException {
            super.beat();
            throw new FieldException("line gone");
          }
        };
    run(field);
    assertEquals(SCANS, field.beats.get(), "tried again with each scan");
  }

  /** An error is no orderly stop: the next process counts it as a crash. */
  @Test
  void anErrorInAScanSwitchesOffAndIsNoOrderlyStop() throws Exception {
    Stopping field =
        new Stopping() {
          @Override
          public Signals read(double monotonicS, double unixTimeS) {
            if (super.reads.get() == 3) {
              throw new AssertionError("provoked");
            }
            return super.read(monotonicS, unixTimeS);
          }
        };
    assertThrows(AssertionError.class, () -> run(field));
    assertTrue(field.offs.get() >= 1);
    Path file = folder.resolve("limnostat.toml");
    try (Ledger ledger = Ledger.open(ConfigurationFile.load(file).configuration().ledger())) {
      ScanState left = SavedState.read(ledger.restored().state().orElseThrow().json());
      assertEquals(ScanState.Phase.RUNNING, left.phase());
    }
  }
}
