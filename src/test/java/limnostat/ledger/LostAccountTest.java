package limnostat.ledger;

import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.await;
import static limnostat.ledger.Samples.execute;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import limnostat.actuate.Output;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * S3 against a card: whatever is lost, damaged or put back of the ledger's files, what was booked
 * and what state was saved is there, or the account is not believed.
 */
class LostAccountTest {
  private static final List<String> SUFFIXES = List.of("", "-wal", ".account");
  private static final String HERE = "here";

  @TempDir(factory = InMemory.class)
  Path folder;

  private Path file;

  /** All files as a kill leaves them, and what was confirmed by then. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Left(Map<String, byte[]> files, double bookedG, byte[] state) {
    void putTo(Path file) throws IOException {
      for (String suffix : List.of("", "-wal", "-shm", ".account")) {
        Files.deleteIfExists(SetAside.suffixed(file, suffix));
      }
      for (Map.Entry<String, byte[]> each : files.entrySet()) {
        Files.write(SetAside.suffixed(file, each.getKey()), each.getValue());
      }
    }

    Left with(String suffix, byte[] content) {
      Map<String, byte[]> changed = new TreeMap<>(files);
      if (content == null) {
        changed.remove(suffix);
      } else {
        changed.put(suffix, content);
      }
      return new Left(changed, bookedG, state);
    }
  }

  @BeforeEach
  void name() {
    file = folder.resolve("ledger.db");
  }

  private static Ledger open(Path file) throws LedgerException {
    return FileLedger.open(settings(file), FAST, HERE);
  }

  /** A process that feeds for a while and is killed now and then: what is left each time. */
  private List<Left> fed(boolean moved) throws Exception {
    Path alive = Files.createTempDirectory(folder, "alive").resolve("ledger.db");
    List<Left> left = new ArrayList<>();
    try (Ledger ledger = open(alive)) {
      for (int i = 1; i <= 40; i++) {
        double bookedG = 2.0 * i;
        byte[] state = ByteBuffer.allocate(9000).putInt(i).array();
        int before = i;
        ledger.offer(Samples.readings(i));
        ledger.offer(new Entry.State(state, at(i), true));
        ledger.offer(new Entry.Booking(Output.CHLORINE, bookedG, at(i)));
        await("booking " + before, () -> ledger.booked().of(Output.CHLORINE) == bookedG);
        if (moved && i % 10 == 0) {
          execute(alive, "PRAGMA wal_checkpoint(PASSIVE)");
        }
        if (i % 8 == 0) {
          Map<String, byte[]> files = new TreeMap<>();
          for (String suffix : SUFFIXES) {
            files.put(suffix, Files.readAllBytes(SetAside.suffixed(alive, suffix)));
          }
          left.add(new Left(files, bookedG, state));
        }
      }
    }
    return left;
  }

  /** Opens what is left; true if it is believed. */
  private boolean believed(String label, Left left) throws Exception {
    left.putTo(file);
    try (Ledger ledger = open(file)) {
      Restored restored = ledger.restored();
      if (restored.doubt().isPresent()) {
        assertFalse(restored.fresh(), label);
        return false;
      }
      assertTrue(
          ledger.booked().of(Output.CHLORINE) >= left.bookedG(),
          () -> label + ": " + ledger.booked() + " after " + left.bookedG() + " g, believed");
      assertArrayEquals(left.state(), restored.state().orElseThrow().json(), label);
      return true;
    } finally {
      removeCopies();
    }
  }

  private void removeCopies() throws IOException {
    try (var files = Files.list(folder)) {
      for (Path aside : files.filter(f -> f.toString().contains(".damaged-")).toList()) {
        Files.delete(aside);
      }
    }
  }

  @Test
  void aKillLosesNothingAndIsNoDamage() throws Exception {
    for (boolean moved : new boolean[] {false, true}) {
      for (Left left : fed(moved)) {
        assertTrue(believed("killed after " + left.bookedG(), left));
      }
    }
  }

  /** As many cases of each kind of damage as an attack had that got through. */
  @Test
  void aDamagedOrLostLogNeverLowersTheAccount() throws Exception {
    Random random = new Random(20_270_112);
    for (boolean moved : new boolean[] {false, true}) {
      List<Left> all = fed(moved);
      int caught = 0;
      for (int i = 0; i < 60; i++) {
        Left left = all.get(random.nextInt(all.size()));
        for (String suffix : SUFFIXES) {
          byte[] whole = left.files().get(suffix);
          int where = random.nextInt(whole.length);
          byte[] flipped = whole.clone();
          flipped[where] ^= (byte) (1 << random.nextInt(8));
          byte[] zeroed = whole.clone();
          int block = where / 4096 * 4096;
          Arrays.fill(zeroed, block, Math.min(whole.length, block + 4096), (byte) 0);
          byte[] cut = Arrays.copyOf(whole, where);
          String label =
              "case " + i + (moved ? ", moved, " : ", ") + suffix + " at " + where + ": ";
          caught += believed(label + "flipped", left.with(suffix, flipped)) ? 0 : 1;
          caught += believed(label + "zeroed", left.with(suffix, zeroed)) ? 0 : 1;
          caught += believed(label + "cut", left.with(suffix, cut)) ? 0 : 1;
        }
      }
      assertTrue(caught > 60, "so little of it was noticed: " + caught);
      for (Left left : all) {
        for (String suffix : SUFFIXES) {
          boolean believed = believed(suffix + " deleted", left.with(suffix, null));
          // Of a log all may have been moved into the file.
          assertFalse(believed && !(moved && suffix.equals("-wal")), suffix + " deleted");
        }
        assertFalse(believed("all but the record", left.with("", null).with("-wal", null)));
      }
    }
  }

  /** Each of the files from each time before. */
  @Test
  void anOlderBackupThatIsPutBackNeverLowersTheAccount() throws Exception {
    for (boolean moved : new boolean[] {false, true}) {
      List<Left> all = fed(moved);
      Left newest = all.get(all.size() - 1);
      for (Left older : all.subList(0, all.size() - 1)) {
        for (int which = 1; which < 1 << SUFFIXES.size(); which++) {
          Left mixed = newest;
          for (int i = 0; i < SUFFIXES.size(); i++) {
            if ((which & 1 << i) != 0) {
              mixed = mixed.with(SUFFIXES.get(i), older.files().get(SUFFIXES.get(i)));
            }
          }
          // What is in the log comes before what is in the file; and where the record is as old,
          // only the time tells: AccountRecordTest.
          if ((which & 6) != 6) {
            believed("older " + older.bookedG() + ", files " + which, mixed);
          }
        }
        Left database =
            newest.with("", older.files().get("")).with("-wal", older.files().get("-wal"));
        assertFalse(believed("the ledger of " + older.bookedG(), database));
      }
    }
  }

  @Test
  void aLedgerOfAnotherMachineIsNotBelieved() throws Exception {
    fed(true).get(2).putTo(file);
    try (Ledger elsewhere = FileLedger.open(settings(file), FAST, "elsewhere")) {
      assertTrue(elsewhere.restored().doubt().orElseThrow().contains("another machine"));
      elsewhere.offer(new Entry.State(new byte[] {1}, at(100), true));
    }
    try (Ledger settled = FileLedger.open(settings(file), FAST, "elsewhere")) {
      assertTrue(settled.restored().doubt().isEmpty(), "it is of this machine now");
      assertTrue(settled.restored().machineKnown());
    }
  }

  /** They ended the program. */
  @Test
  void bookingsThatCannotBeAreNotBelievedAndGoneAfterwards() throws Exception {
    for (String amount : List.of("-5", "-1e300", "1e300", "9e999", "-9e999")) {
      fed(true).get(2).putTo(file);
      execute(file, "UPDATE booking SET cumulative_amount = " + amount);
      try (Ledger ledger = open(file)) {
        assertTrue(ledger.restored().doubt().orElseThrow().contains("cannot be"), amount);
        assertEquals(0, ledger.booked().of(Output.CHLORINE));
        ledger.offer(new Entry.State(new byte[] {1}, at(100), true));
        ledger.offer(new Entry.Booking(Output.CHLORINE, 3, at(100)));
      }
      try (Ledger ledger = open(file)) {
        assertTrue(ledger.restored().doubt().isEmpty(), amount);
        assertEquals(3, ledger.booked().of(Output.CHLORINE), amount);
      }
    }
  }

  /** What a person changes in the file is not what was booked. */
  @Test
  void aLowerBookingOrAnotherStateIsNotBelieved() throws Exception {
    for (String change :
        List.of(
            "UPDATE booking SET cumulative_amount = 1",
            "DELETE FROM booking",
            "UPDATE state SET json = x'7b7d'",
            "UPDATE state SET monotonic_s = monotonic_s - 86400",
            "DELETE FROM state",
            "UPDATE boot SET boot_id = 'boot-2'",
            "UPDATE seal SET commits = commits + 1",
            "DELETE FROM seal",
            "UPDATE seal SET machine = 'there'",
            "DROP TABLE booking",
            "UPDATE state SET monotonic_s = 9e999")) {
      fed(true).get(2).putTo(file);
      execute(file, change);
      try (Ledger ledger = open(file)) {
        assertTrue(ledger.restored().doubt().isPresent(), change);
        assertTrue(ledger.restored().setAside().isPresent(), change);
      }
      removeCopies();
    }
  }

  /** The copy is what was found, log and all, before anything was written. */
  @Test
  void aCopyIsKeptAndTheHistoryGoesOn() throws Exception {
    Left left = fed(false).get(2);
    byte[] log = left.files().get("-wal").clone();
    log[log.length / 2] ^= 1;
    Left damaged = left.with("-wal", log);
    damaged.putTo(file);
    Path copy;
    try (Ledger ledger = open(file)) {
      copy = ledger.restored().setAside().orElseThrow();
      ledger.offer(new Entry.State(new byte[] {1}, at(100), true));
    }
    for (String suffix : SUFFIXES) {
      assertArrayEquals(
          damaged.files().get(suffix), Files.readAllBytes(SetAside.suffixed(copy, suffix)), suffix);
    }
    assertTrue(
        Integer.parseInt(Samples.column(file, "SELECT count(*) FROM readings").get(0)) > 0,
        "what was whole is still there");
  }

  /** A cause that comes back with each start must not fill the card. */
  @Test
  void copiesAreFew() throws Exception {
    Left left = fed(true).get(2);
    for (int i = 0; i < 9; i++) {
      left.with(".account", null).putTo(file);
      try (Ledger ledger = open(file)) {
        assertTrue(ledger.restored().doubt().isPresent());
        assertEquals(i < 5, ledger.restored().setAside().isPresent());
      }
    }
  }

  /** An upgrade: a file of before the seal, with its bookings, and no record. */
  @Test
  void aFileOfBeforeTheSealIsBelieved() throws Exception {
    Left left = fed(true).get(2).with(".account", null);
    left.putTo(file);
    execute(file, "DROP TABLE seal; PRAGMA user_version = 4");
    try (Ledger ledger = open(file)) {
      assertTrue(ledger.restored().doubt().isEmpty());
      assertFalse(ledger.restored().machineKnown());
      assertEquals(left.bookedG(), ledger.booked().of(Output.CHLORINE));
      ledger.offer(new Entry.Booking(Output.CHLORINE, 90, at(100)));
    }
    try (Ledger ledger = open(file)) {
      assertTrue(ledger.restored().doubt().isEmpty());
      assertTrue(ledger.restored().machineKnown());
      assertEquals(90, ledger.booked().of(Output.CHLORINE));
    }
  }
}
