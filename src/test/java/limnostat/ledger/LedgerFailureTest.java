package limnostat.ledger;

import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.await;
import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.event;
import static limnostat.ledger.Samples.execute;
import static limnostat.ledger.Samples.readings;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import limnostat.actuate.Output;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What goes wrong while the ledger runs. */
class LedgerFailureTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve("ledger.db");
  }

  /** The writer waits for another program's lock for the whole flood. */
  @Test
  void aFloodNeitherWaitsNorGrows() throws Exception {
    Tuning waiting = new Tuning(0.01, 0.02, 0.1, 5, 60_000, 100, 0, 3600, 1L << 50);
    int offered = 1_000_000;
    Ledger flooded = FileLedger.open(settings(file), waiting);
    try (Ledger ledger = flooded) {
      try (Connection other = Samples.connect(file);
          Statement statement = other.createStatement()) {
        statement.executeUpdate("BEGIN IMMEDIATE");
        for (int i = 0; i < offered; i++) {
          ledger.offer(readings(i));
        }
        ledger.offer(event(1, true));
        assertEquals(0, ledger.health().commits()); // so no offer has waited for the writer
        statement.executeUpdate("ROLLBACK");
      }
      await("the alarm", () -> ledger.health().commits() > 0);
    }
    long rows = Long.parseLong(column(file, "SELECT count(*) FROM readings").get(0));
    // At most one batch with the writer and one that waits.
    assertTrue(rows <= 2L * waiting.capacity(), rows + " rows");
    assertEquals(offered, rows + flooded.health().dropped().readings());
    assertEquals(List.of("1"), column(file, "SELECT count(*) FROM event"));
  }

  @Test
  void aVanishedFileIsBegunAgainWithAllBookings() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Booking(Output.ACID, 30, at(1)));
      await("the first booking", () -> ledger.booked().of(Output.ACID) == 30);
      for (String suffix : List.of("", "-wal", "-shm")) {
        Files.delete(Path.of(file + suffix));
      }
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(2)));
      await("the second booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
      String error = ledger.health().lastError().orElseThrow();
      assertTrue(error.contains("moved or deleted"), error);
      assertTrue(ledger.health().failingSinceS().isEmpty());
    }
    assertEquals(
        List.of("acid 30.0", "chlorine 5.0"),
        column(file, "SELECT output || ' ' || cumulative_amount FROM booking ORDER BY 1"));
  }

  /** SQLite goes on writing to an unlinked log without a word. */
  @Test
  void aVanishedLogConfirmsNothing() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      Files.delete(Path.of(file + "-wal"));
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(2)));
      await("the booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
      assertTrue(ledger.health().lastError().orElseThrow().contains("moved or deleted"));
      assertEquals(List.of("5.0"), column(file, "SELECT cumulative_amount FROM booking"));
    }
  }

  @Test
  void aVanishedFolderFailsUntilItIsBack() throws Exception {
    Path place = Files.createDirectory(folder.resolve("place"));
    Path moved = folder.resolve("moved");
    Path inPlace = place.resolve("ledger.db");
    try (Ledger ledger = FileLedger.open(settings(inPlace), FAST)) {
      Files.move(place, moved);
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
      await("a failure", () -> errorHas(ledger, "folder must exist"));
      assertEquals(0, ledger.booked().of(Output.CHLORINE));
      assertTrue(ledger.health().failingSinceS().isPresent());
      Files.move(moved, place);
      await("the booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
    }
    assertEquals(List.of("5.0"), column(inPlace, "SELECT cumulative_amount FROM booking"));
  }

  @Test
  void aFullDatabaseFailsDropsByRuleAndRecovers() throws Exception {
    Tuning small = new Tuning(0.01, 0.02, 0.1, 5, 50, 100, 60, 3600, 1L << 50);
    try (Ledger ledger = FileLedger.open(settings(file), small)) {
      String ballast = "\"" + "x".repeat(2_000) + "\"";
      for (int i = 0; ledger.health().failingSinceS().isEmpty(); i++) {
        ledger.offer(new Entry.Event(at(i), "ballast", ballast, true));
        Thread.sleep(1);
      }
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
      ledger.offer(new Entry.WaterTest(at(2), "{}"));
      for (int i = 0; i < 1000; i++) {
        ledger.offer(readings(i));
        ledger.offer(event(i, false));
      }
      assertEquals(0, ledger.booked().of(Output.CHLORINE));
      assertTrue(errorHas(ledger, "disk is full"), ledger.health().toString());
      Health.Dropped dropped = ledger.health().dropped();
      assertEquals(1000, dropped.readings());
      assertTrue(dropped.events() >= 800, dropped.toString());
      execute(file, "DELETE FROM event");
      await("the booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
    }
    assertEquals(List.of("1"), column(file, "SELECT count(*) FROM water_test"));
    assertEquals(List.of("ok"), column(file, "PRAGMA integrity_check"));
  }

  /** Damage that only shows while running: the file is overwritten under the connection. */
  @Test
  void damageWhileRunningIsSetAsideAndBookingsAreKept() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Booking(Output.ACID, 30, at(1)));
      await("the booking", () -> ledger.booked().of(Output.ACID) == 30);
      execute(file, "PRAGMA wal_checkpoint(TRUNCATE)");
      byte[] bytes = Files.readAllBytes(file);
      Arrays.fill(bytes, (byte) 0x5a);
      Files.write(file, bytes);
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(2)));
      await("the second booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      assertEquals(30, ledger.booked().of(Output.ACID));
      assertEquals(5, ledger.booked().of(Output.CHLORINE));
    }
  }

  @Test
  void closingWithALockedFileEndsAndSaysSo() throws Exception {
    Tuning brief = new Tuning(0.01, 0.02, 0.1, 0.2, 50, 100, 0, 3600, 1L << 50);
    Ledger ledger = FileLedger.open(settings(file), brief);
    try (Connection other = Samples.connect(file);
        Statement statement = other.createStatement()) {
      statement.executeUpdate("BEGIN IMMEDIATE");
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
      ledger.close();
      assertEquals(0, ledger.booked().of(Output.CHLORINE));
      assertTrue(ledger.health().failingSinceS().isPresent());
      statement.executeUpdate("ROLLBACK");
    }
    FileLedger.open(settings(file), FAST).close();
  }

  @Test
  void leavesNothingBesideTheLedgerButLockAndRecord() throws Exception {
    FileLedger.open(settings(file), FAST).close();
    Set<String> names = new TreeSet<>();
    try (var files = Files.list(folder)) {
      files.forEach(f -> names.add(f.getFileName().toString()));
    }
    names.remove("ledger.db.native"); // unpacked by the first ledger of a process only
    assertEquals(Set.of("ledger.db", "ledger.db.account", "ledger.db.lock"), names);
  }

  private static boolean errorHas(Ledger ledger, String text) {
    return ledger.health().lastError().filter(e -> e.contains(text)).isPresent();
  }
}
