package limnostat.ledger;

import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import limnostat.actuate.Output;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A process killed by SIGKILL while it books loses nothing that it confirmed. */
class KillIT {
  private static final int KILLS = 24;
  private static final long SEED = 20_261_101;

  @TempDir Path folder;

  @Test
  void everyConfirmedBookingSurvivesTheKill() throws Exception {
    Path file = folder.resolve("ledger.db");
    Random random = new Random(SEED);
    double largest = 0;
    for (int kill = 0; kill < KILLS; kill++) {
      Process child = ChildJvm.start(BookingChild.class.getName(), file.toString());
      try (BufferedReader lines = child.inputReader()) {
        String first = lines.readLine();
        assertTrue(Double.parseDouble(first) >= largest, "kill " + kill + ": " + first);
        if (kill == 0) {
          LedgerException e =
              assertThrows(LedgerException.class, () -> Ledger.open(settings(file)).close());
          assertTrue(e.getMessage().contains("another process has it open"), e.getMessage());
        }
        // By what it has done and not by the time, as the machine may be busy.
        for (int more = random.nextInt(8); more > 0; more--) {
          largest = Double.parseDouble(lines.readLine());
        }
        Thread.sleep(random.nextInt(20));
        child
            .toHandle()
            .destroyForcibly(); // Process.destroyForcibly would close our end of the pipe
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
          largest = Double.parseDouble(line);
        }
      }
      assertEquals(128 + 9, child.waitFor());
      try (Ledger ledger = Ledger.open(settings(file))) {
        double restored = ledger.booked().of(Output.CHLORINE);
        assertTrue(restored >= largest, restored + " after " + largest + ", kill " + kill);
        // One more may have been committed and not yet printed.
        assertTrue(restored <= largest + 1, restored + " after " + largest + ", kill " + kill);
        assertEquals(Optional.empty(), ledger.restored().doubt(), "kill " + kill);
        largest = restored;
      }
      assertEquals(List.of("ok"), column(file, "PRAGMA integrity_check"));
    }
    assertTrue(largest > KILLS, "hardly anything was booked: " + largest);
    // Each killed child leaves its unpacked library; the next start removes it. Ours may be there.
    try (var left = Files.list(folder.resolve("ledger.db.native"))) {
      assertTrue(left.count() <= 2);
    }
  }
}
