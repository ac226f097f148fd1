package limnostat.ledger;

import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.execute;
import static limnostat.ledger.Samples.readings;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import limnostat.actuate.Output;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Files that cannot be used at opening, and folders that cannot. */
class DamagedFileTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve("ledger.db");
  }

  private enum Damage {
    GARBAGE_HEADER {
      @Override
      byte[] to(byte[] whole) {
        new Random(3).nextBytes(whole);
        return whole;
      }
    },
    TRUNCATED_IN_THE_MIDDLE {
      @Override
      byte[] to(byte[] whole) {
        return Arrays.copyOf(whole, whole.length / 2);
      }
    },
    ZEROED_PAGES {
      @Override
      byte[] to(byte[] whole) {
        Arrays.fill(whole, 4096, whole.length, (byte) 0);
        return whole;
      }
    },
    EMPTY {
      @Override
      byte[] to(byte[] whole) {
        return new byte[0];
      }
    };

    abstract byte[] to(byte[] whole);
  }

  @ParameterizedTest
  @EnumSource
  void damageIsSetAsideAndANewFileBegun(Damage damage) throws Exception {
    writeSomeRows();
    byte[] damaged = damage.to(Files.readAllBytes(file));
    Files.write(file, damaged);

    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      Restored restored = ledger.restored();
      Path aside = restored.setAside().orElseThrow();
      assertTrue(aside.getFileName().toString().matches("ledger\\.db\\.damaged-\\d+"));
      assertEquals(damaged.length, Files.size(aside));
      assertFalse(restored.fresh());
      assertEquals(Map.of(), restored.bookings());
      ledger.offer(new Entry.Booking(Output.ACID, 4, at(9)));
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      // A process that never said that the caps are used up leaves that to the next one.
      assertTrue(ledger.restored().doubt().isPresent());
      ledger.offer(new Entry.State(new byte[] {1}, at(10), true));
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      assertTrue(ledger.restored().setAside().isEmpty());
      assertEquals(4, ledger.booked().of(Output.ACID));
    }
  }

  @Test
  void aLogWithoutItsFileIsSetAside() throws Exception {
    Files.write(folder.resolve("ledger.db-wal"), new byte[100]);
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      Path aside = ledger.restored().setAside().orElseThrow();
      assertEquals(100, Files.size(Path.of(aside + "-wal")));
      assertFalse(ledger.restored().fresh());
    }
  }

  @Test
  void twoDamagedFilesWithinASecondAreBothKept() throws Exception {
    for (int i = 0; i < 3; i++) {
      Files.writeString(file, "damaged " + i + " ".repeat(5000));
      FileLedger.open(settings(file), FAST).close();
    }
    try (var files = Files.list(folder)) {
      assertEquals(
          3, files.filter(f -> f.getFileName().toString().matches(".*damaged-\\d+")).count());
    }
  }

  @Test
  void aNewerFileIsRefusedAndLeftAlone() throws Exception {
    writeSomeRows();
    execute(file, "PRAGMA user_version = 99");
    LedgerException e = refused(file);
    assertTrue(e.getMessage().contains("schema version 99"), e.getMessage());
    assertTrue(e.getMessage().contains("install the newer program"), e.getMessage());
    assertEquals(List.of("50"), column(file, "SELECT count(*) FROM readings"));
  }

  @Test
  void anotherProgramsDatabaseIsRefusedAndLeftAlone() throws Exception {
    execute(file, "CREATE TABLE theirs (x)");
    LedgerException e = refused(file);
    assertTrue(e.getMessage().contains("another program's database"), e.getMessage());
    assertEquals(List.of("theirs"), column(file, "SELECT name FROM sqlite_schema"));
  }

  /** Root may write anywhere, so the folders that refuse are a missing one and a plain file. */
  @Test
  void unusablePathsAreNamedWithTheMend() throws Exception {
    Path plain = Files.writeString(folder.resolve("plain"), "x");
    Path directory = Files.createDirectory(folder.resolve("directory"));
    for (Path bad :
        List.of(
            folder.resolve("missing").resolve("ledger.db"),
            plain.resolve("ledger.db"),
            directory)) {
      for (int attempt = 0; attempt < 2; attempt++) { // the first must not leave a lock behind
        LedgerException e = refused(bad);
        assertTrue(e.getMessage().contains(bad.toString()), e.getMessage());
        assertTrue(e.getMessage().contains("folder must exist"), e.getMessage());
      }
    }
  }

  private static LedgerException refused(Path file) {
    return assertThrows(LedgerException.class, () -> FileLedger.open(settings(file), FAST).close());
  }

  private void writeSomeRows() throws LedgerException, IOException {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      for (int i = 0; i < 50; i++) {
        ledger.offer(readings(i));
      }
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(1)));
    }
    assertTrue(Files.size(file) > 8192);
  }
}
