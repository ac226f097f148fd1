package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import limnostat.account.DoseCaps;
import limnostat.actuate.Modulator;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.field.Field;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.mqtt.Link;
import limnostat.rig.ConfigText;
import limnostat.scan.OutputState;
import limnostat.scan.ScanState;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How a process ends: with what it gave until then. */
class CycleTest {
  @TempDir Path folder;

  private static final class Idle implements Field {
    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      return Signals.of(Map.of());
    }

    @Override
    public void write(Outputs outputs) {}

    @Override
    public void off() {}

    @Override
    public void onFlowEdge(Runnable callback) {}

    @Override
    public void close() {}
  }

  @Test
  void anOrderlyStopCountsWhatWasGivenSinceTheLastScan() throws Exception {
    Path file = ConfigText.feedingSoon().withoutBroker().write(folder);
    Configuration configuration = ConfigurationFile.load(file).configuration();
    DoseCaps caps = configuration.scan().chlorine().caps();
    Clock.Simulated clock = new Clock.Simulated(1.7e9);
    BootClock boot = new BootClock("boot", 0, clock);
    try (EventLog log = new EventLog(line -> {});
        Ledger ledger = Ledger.open(configuration.ledger());
        Link link = new Link(configuration.mqtt(), configuration.siteId(), Optional.empty())) {
      ScanState feeding = feeding(configuration);
      ScanCycle cycle =
          ScanCycle.open(
              configuration,
              new ScanCycle.Surroundings(new Idle(), ledger, link, boot, log),
              new Resume(feeding, 0, ""));
      clock.advance(20);
      cycle.close(true);
    }
    try (Ledger ledger = Ledger.open(configuration.ledger())) {
      ScanState left = SavedState.read(ledger.restored().state().orElseThrow().json());
      assertEquals(ScanState.Phase.STOPPED, left.phase());
      assertEquals(caps.amount(1, 20), left.chlorine().account().given(), 1e-12);
      assertEquals(caps.amount(1, 20), left.chlorine().account().lastHour(), 1e-12);
    }
  }

  /** As after a scan that turned chlorine on. */
  private static ScanState feeding(Configuration configuration) {
    ScanState s = ScanState.start(configuration.scan());
    Modulator.State on = new Modulator.State(1, 0, 0, 0);
    return new ScanState(
        ScanState.Phase.RUNNING,
        s.measure(),
        s.estimate(),
        s.control(),
        s.safety(),
        new OutputState(on, s.chlorine().account()),
        s.acid(),
        s.alarms(),
        s.sun(),
        s.annunciator(),
        s.totals());
  }
}
