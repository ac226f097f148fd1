package limnostat.cli;

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

  private static byte[] id(int number) {
    return ("{\"id\":\"" + number + "\"}").getBytes(UTF_8);
  }

  @Test
  void stateAndEventsGoOutWhileTheLedgerIsLockedAndNoneIsLeftInItAfterwards() throws Exception {
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
        link.event("event", id(1));
        link.retain("state", id(0));
        dashboard.await("state");
        dashboard.await("event", m -> m.text().equals(new String(id(1), UTF_8)));
        assertTrue(ledger.health().failingSinceS().isPresent());
        statement.executeUpdate("ROLLBACK");
        link.event("event", id(2));
        dashboard.await("event", m -> m.text().equals(new String(id(2), UTF_8)));
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
