package limnostat.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.PATIENT;
import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.await;
import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.event;
import static limnostat.ledger.Samples.readings;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import limnostat.actuate.Output;
import limnostat.ledger.Restored.LastBooking;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LedgerTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve("ledger.db");
  }

  @Test
  void createsTheSchemaOnce() throws Exception {
    try (Ledger first = FileLedger.open(settings(file), FAST)) {
      assertEquals(
          new Restored(
              Optional.empty(), Map.of(), Optional.empty(), Optional.empty(), true, false, 5),
          first.restored());
    }
    try (Ledger second = FileLedger.open(settings(file), FAST)) {
      assertFalse(second.restored().fresh());
    }
    assertEquals(List.of("5"), column(file, "PRAGMA user_version"));
    assertEquals(
        List.of(
            "addition",
            "booking",
            "boot",
            "event",
            "given",
            "given_until",
            "outbox",
            "readings",
            "seal",
            "setting",
            "state",
            "water_test"),
        column(file, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"));
  }

  /** 2 is FULL (SQLite documentation, PRAGMA synchronous). */
  @Test
  void writesInWalWithFullSynchronousAndForeignKeys() throws Exception {
    try (Ledger creator = FileLedger.open(settings(file), FAST)) {
      assertTrue(creator.restored().fresh());
    }
    try (Database database = Database.open(file, FAST)) {
      Connection connection = database.connection();
      assertEquals("wal", Sql.text(connection, "PRAGMA journal_mode"));
      assertEquals(2, Sql.number(connection, "PRAGMA synchronous"));
      assertEquals(1, Sql.number(connection, "PRAGMA foreign_keys"));
      assertEquals(FAST.busyMs(), Sql.number(connection, "PRAGMA busy_timeout"));
    }
  }

  @Test
  void confirmsABookingOnlyOnceItIsCommitted() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      try (Connection other = Samples.connect(file);
          Statement statement = other.createStatement()) {
        statement.executeUpdate("BEGIN IMMEDIATE");
        ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
        await("a failing writer", () -> ledger.health().failingSinceS().isPresent());
        assertEquals(0, ledger.booked().of(Output.CHLORINE));
        assertEquals(List.of(), column(file, "SELECT cumulative_amount FROM booking"));
        String error = ledger.health().lastError().orElseThrow();
        assertTrue(error.contains(file.toString()) && error.contains("locked"), error);
        statement.executeUpdate("ROLLBACK");
      }
      await("the booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
      assertEquals(List.of("5.0"), column(file, "SELECT cumulative_amount FROM booking"));
      assertTrue(ledger.health().failingSinceS().isEmpty());
      assertEquals(0, ledger.booked().of(Output.ACID));
    }
  }

  @Test
  void restoresWhatWasOffered() throws Exception {
    byte[] newest = "{\"n\":2}".getBytes(UTF_8);
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
      ledger.offer(new Entry.Booking(Output.CHLORINE, 9, at(2)));
      ledger.offer(new Entry.Booking(Output.CHLORINE, 9, at(3)));
      ledger.offer(new Entry.Booking(Output.CHLORINE, 7, at(4)));
      ledger.offer(new Entry.Booking(Output.ACID, 120.5, at(5)));
      ledger.offer(new Entry.State("{\"n\":1}".getBytes(UTF_8), at(6), false));
      ledger.offer(new Entry.State(newest, at(7), false));
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      Restored restored = ledger.restored();
      assertEquals(
          Map.of(
              Output.CHLORINE,
              new LastBooking(9, at(2)),
              Output.ACID,
              new LastBooking(120.5, at(5))),
          restored.bookings());
      assertArrayEquals(newest, restored.state().orElseThrow().json());
      assertEquals(at(7), restored.state().orElseThrow().moment());
      assertEquals(9, ledger.booked().of(Output.CHLORINE));
    }
  }

  /** A lower amount in a later commit must not lower the durable one. */
  @Test
  void neverLowersABooking() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Booking(Output.ACID, 50, at(1)));
      await("the booking", () -> ledger.booked().of(Output.ACID) == 50);
      ledger.offer(new Entry.Booking(Output.ACID, 20, at(2)));
      await("a second commit", () -> ledger.health().commits() == 2);
      assertEquals(50, ledger.booked().of(Output.ACID));
    }
    assertEquals(List.of("50.0"), column(file, "SELECT cumulative_amount FROM booking"));
  }

  @Test
  void orderlyStopLeavesOneWholeFile() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
    }
    assertFalse(Files.exists(folder.resolve("ledger.db-wal")));
    Path copy = Files.copy(file, folder.resolve("copy.db"));
    assertEquals(List.of("5.0"), column(copy, "SELECT cumulative_amount FROM booking"));
  }

  @Test
  void addsWhatWasGivenByOutputAndHour() throws Exception {
    for (int run = 0; run < 2; run++) {
      try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
        ledger.offer(new Entry.Given(Output.CHLORINE, 7200, 7.5 * run, 7.5 * run + 1.5));
        ledger.offer(
            new Entry.Given(Output.CHLORINE, 7200 + 3599, 7.5 * run + 1.5, 7.5 * run + 3.5));
        ledger.offer(new Entry.Given(Output.CHLORINE, 10800, 7.5 * run + 3.5, 7.5 * run + 7.5));
        ledger.offer(new Entry.Given(Output.ACID, 7200, 8 * run, 8 * run + 8));
      }
    }
    assertEquals(
        List.of("7200 acid 16.0", "7200 chlorine 7.0", "10800 chlorine 8.0"),
        column(
                file,
                "SELECT hour_unix_s || ' ' || output || ' ' || amount FROM given ORDER BY 1, output")
            .stream()
            .sorted((a, b) -> Integer.compare(hour(a), hour(b)))
            .toList());
  }

  private static int hour(String row) {
    return Integer.parseInt(row.substring(0, row.indexOf(' ')));
  }

  @Test
  void storesAbsentAndNotANumberAsNull() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(readings(1));
    }
    assertEquals(
        List.of("7.2 null null 1.5 null null 0.25 null null boot-1"),
        column(
            file,
            "SELECT format('%s %s %s %s %s %s %s %s %s %s', ph, ifnull(orp_mv, 'null'),"
                + " ifnull(water_c, 'null'), free_chlorine_mg_l,"
                + " ifnull(free_chlorine_sd_mg_l, 'null'), ifnull(demand_mg_l_day, 'null'), duty,"
                + " ifnull(chlorine_g, 'null'), ifnull(acid_ml, 'null'), boot_id)"
                + " FROM readings JOIN boot ON boot.id = boot"));
  }

  @Test
  void keepsTheOrderOfEvents() throws Exception {
    Random random = new Random(11);
    List<String> offered = new ArrayList<>();
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      for (int i = 0; i < 300; i++) {
        Entry.Event event = event(i, random.nextBoolean());
        ledger.offer(event);
        offered.add(event.json());
        if (i % 50 == 49) {
          long commits = ledger.health().commits();
          await("a commit", () -> ledger.health().commits() > commits);
        }
      }
    }
    assertEquals(offered, column(file, "SELECT json FROM event ORDER BY id"));
  }

  @Test
  void urgentEntriesTakeWaitingOnesAlong() throws Exception {
    List<Entry> urgent =
        List.of(
            event(1, true),
            new Entry.WaterTest(at(2), "{}"),
            new Entry.Addition(at(2), "{\"what\":\"salt\"}"),
            new Entry.Setting(at(3), "target", "1.5", "mqtt"),
            new Entry.Booking(Output.ACID, 1, at(4)),
            new Entry.State(new byte[] {'{', '}'}, at(5), true));
    try (Ledger ledger = FileLedger.open(settings(file), PATIENT)) {
      ledger.offer(readings(0));
      await("the first batch", () -> ledger.health().commits() == 1);
      for (int i = 0; i < urgent.size(); i++) {
        long commits = i + 2L;
        ledger.offer(readings(10 * i));
        ledger.offer(event(10 * i, false));
        ledger.offer(new Entry.State(new byte[] {'{', '}'}, at(10 * i), false));
        ledger.offer(urgent.get(i));
        await("a commit for " + urgent.get(i), () -> ledger.health().commits() == commits);
      }
      assertEquals(List.of("7"), column(file, "SELECT count(*) FROM readings"));
      assertEquals(List.of("7"), column(file, "SELECT count(*) FROM event"));
      assertEquals(List.of("{\"what\":\"salt\"}"), column(file, "SELECT json FROM addition"));
      assertEquals(
          List.of("target 1.5 mqtt"),
          column(file, "SELECT name || ' ' || json || ' ' || origin FROM setting"));
    }
  }

  @Test
  void refusesASecondOpenerAndKeepsTheFirst() throws Exception {
    try (Ledger first = FileLedger.open(settings(file), FAST)) {
      for (Path name : Arrays.asList(file, folder.resolve(".").resolve("ledger.db"))) {
        LedgerException e =
            assertThrows(
                LedgerException.class, () -> FileLedger.open(settings(name), FAST).close());
        assertTrue(e.getMessage().contains("has it open"), e.getMessage());
      }
      first.offer(new Entry.Booking(Output.ACID, 3, at(1)));
      await("the booking", () -> first.booked().of(Output.ACID) == 3);
    }
    FileLedger.open(settings(file), FAST).close();
  }

  @Test
  void countsWhatIsOfferedAfterClosing() throws Exception {
    Ledger ledger = FileLedger.open(settings(file), FAST);
    ledger.close();
    ledger.offer(readings(1));
    ledger.offer(event(2, false));
    ledger.offer(new Entry.Booking(Output.ACID, 3, at(3)));
    assertEquals(new Health.Dropped(1, 1, 1), ledger.health().dropped());
    ledger.close();
  }

  /** A retry after a commit of unknown end, and a process that begins from an older state. */
  @Test
  void whatWasGivenIsNotAddedTwice() throws Exception {
    for (int run = 0; run < 3; run++) {
      try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
        ledger.offer(new Entry.Given(Output.CHLORINE, 7200, 0, 5));
      }
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.offer(new Entry.Given(Output.CHLORINE, 10800, 3, 6));
    }
    assertEquals(
        List.of("5.0", "1.0"),
        column(file, "SELECT amount FROM given WHERE output = 'chlorine' ORDER BY hour_unix_s"));
  }

  @Test
  void refusesAmountsAndTimesThatAreNoNumbers() {
    assertThrows(
        IllegalArgumentException.class, () -> new Entry.Booking(Output.ACID, Double.NaN, at(1)));
    assertThrows(IllegalArgumentException.class, () -> new Entry.Given(Output.ACID, 0, 2, 1));
    assertThrows(IllegalArgumentException.class, () -> at(Double.POSITIVE_INFINITY));
  }
}
