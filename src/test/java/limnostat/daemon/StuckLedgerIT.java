package limnostat.daemon;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.Optional;
import limnostat.config.LedgerSettings;
import limnostat.config.MqttSettings;
import limnostat.ledger.Ledger;
import limnostat.ledger.Outgoing;
import limnostat.mqtt.Link;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import limnostat.scan.ScanEvent;
import limnostat.wire.EventDocument;
import limnostat.wire.HealthDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A ledger that cannot be written keeps nothing from being told. */
@Timeout(120)
class StuckLedgerIT {
  @TempDir Path folder;

  private Link link(TestBroker broker, Ledger ledger) {
    MqttSettings settings =
        new MqttSettings(
            true,
            "127.0.0.1",
            broker.port(),
            false,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            "limnostat");
    return new Link(settings, "garden", Optional.empty(), new LedgerKeeper(ledger));
  }

  private static byte[] event(String id) {
    return EventDocument.numbered(new ScanEvent.Interrupted(90), 1, id);
  }

  @Test
  void whatIsNewAndEventsGoOutWhileTheLedgerIsLockedAndNoneIsLeftInItAfterwards() throws Exception {
    Path file = folder.resolve("limnostat.db");
    LedgerSettings settings = new LedgerSettings(file, 60, 400);
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker)) {
      try (Ledger ledger = Ledger.open(settings);
          Link link = link(broker, ledger);
          Connection other = DriverManager.getConnection("jdbc:sqlite:" + file);
          Statement statement = other.createStatement()) {
        link.start();
        dashboard.await("availability");
        statement.executeUpdate("BEGIN IMMEDIATE"); // another program's backup, and it hangs
        link.event("event", event("1"));
        link.retain(
            "health", new HealthDocument(9, 1, 2, 0.1, 0.2, 3, 1, true, 0.3, 4, 5, 6, 7).at(7));
        dashboard.await("health");
        dashboard.await("event", m -> m.text().equals(new String(event("1"), UTF_8)));
        assertTrue(ledger.health().failingSinceS().isPresent());
        statement.executeUpdate("ROLLBACK");
        link.event("event", event("2"));
        dashboard.await("event", m -> m.text().equals(new String(event("2"), UTF_8)));
        Program.await("written again", () -> ledger.health().failingSinceS().isEmpty());
        Program.await("acknowledged", () -> link.health().waiting() == 0);
      }
      try (Ledger ledger = Ledger.open(settings)) {
        assertEquals(new Outgoing.Found(0, 0), ledger.outgoing());
      }
      assertEquals(2, dashboard.seen("event").size());
    }
  }
}
