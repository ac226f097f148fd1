package limnostat.ledger;

import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.await;
import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.readings;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import limnostat.config.LedgerSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Ten days are kept, one row an hour: 480 rows at most. */
class RetentionTest {
  private static final double DAY_S = 86_400;
  private static final double NOW_UNIX_S = 1_800_000_000;

  @TempDir Path folder;

  private double readingsEveryS = 3600;

  private LedgerSettings settings() {
    return new LedgerSettings(folder.resolve("ledger.db"), readingsEveryS, 10);
  }

  private static Moment daysAgo(double days, boolean trusted) {
    return new Moment(1, NOW_UNIX_S - days * DAY_S, trusted, "boot-1");
  }

  /** Writes old rows, opens again with one row of today, and says what is left of them all. */
  private List<String> daysLeftAfter(List<Moment> old, Moment today) throws Exception {
    Tuning roomy = new Tuning(0.01, 0.02, 0.1, 5, 50, 10_000, 0, 3600, 1L << 50);
    try (Ledger ledger = FileLedger.open(settings(), roomy)) {
      old.forEach(moment -> ledger.offer(readings(moment)));
    }
    try (Ledger ledger = FileLedger.open(settings(), FAST)) {
      ledger.offer(readings(today));
      // A turn commits, then deletes up to 500 rows: after this many turns all is done.
      for (int turn = 0; turn < 10; turn++) {
        long commits = ledger.health().commits();
        ledger.offer(new Entry.Event(today, "turn", "{}", true));
        await("a turn", () -> ledger.health().commits() > commits);
      }
    }
    return column(
        settings().file(),
        "SELECT printf('%.0f', (1800000000 - unix_time_s) / 86400) FROM readings ORDER BY id");
  }

  @Test
  void oldRowsGoAndUntrustedOnesWithTheirNeighbours() throws Exception {
    assertEquals(
        List.of("9001", "9", "9002", "0"),
        daysLeftAfter(
            List.of(
                daysAgo(18, true),
                daysAgo(9000, false), // between two old ones: old
                daysAgo(11, true),
                daysAgo(9001, false), // after the last old one: perhaps young
                daysAgo(9, true),
                daysAgo(9002, false)),
            daysAgo(0, true)));
  }

  @Test
  void anUntrustedClockDeletesNothing() throws Exception {
    assertEquals(
        List.of("20", "11", "-9000"),
        daysLeftAfter(List.of(daysAgo(20, true), daysAgo(11, true)), daysAgo(-9000, false)));
  }

  @Test
  void aClockThatIsNeverRightKeepsByNumber() throws Exception {
    assertEquals(
        480,
        daysLeftAfter(Collections.nCopies(700, daysAgo(9000, false)), daysAgo(9000, false)).size());
  }

  @Test
  void manyOldRowsGoInSlices() throws Exception {
    readingsEveryS = 60;
    assertEquals(
        List.of("0"),
        daysLeftAfter(Collections.nCopies(2600, daysAgo(20, true)), daysAgo(0, true)));
  }
}
