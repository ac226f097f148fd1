package limnostat.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static limnostat.ledger.Samples.FAST;
import static limnostat.ledger.Samples.PATIENT;
import static limnostat.ledger.Samples.await;
import static limnostat.ledger.Samples.column;
import static limnostat.ledger.Samples.event;
import static limnostat.ledger.Samples.settings;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Messages for the broker in the ledger. */
class OutgoingTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve("ledger.db");
  }

  private static Entry.Message message(long number, boolean urgent) {
    return new Entry.Message(number, "base/site/event", "RECORD", text(number), urgent);
  }

  private static byte[] text(long number) {
    return ("{\"id\":" + number + "}").getBytes(UTF_8);
  }

  private static List<Long> read(Ledger ledger, long after, int most) throws Exception {
    CompletableFuture<Outgoing.Page> page = new CompletableFuture<>();
    ledger.readOutgoing(after, most, page::complete);
    return page.get(10, TimeUnit.SECONDS).messages().stream().map(Entry.Message::number).toList();
  }

  @Test
  void whatIsNotDeliveredIsThereInTheNextProcess() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      assertEquals(new Outgoing.Found(0, 0), ledger.outgoing());
      for (long n = 1; n <= 5; n++) {
        ledger.offer(message(n, true));
      }
      await("kept", () -> ledger.keptTo() == 5);
      ledger.offer(new Entry.Delivered(1));
      ledger.offer(new Entry.Delivered(3));
    }
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      assertEquals(new Outgoing.Found(3, 5), ledger.outgoing());
      assertEquals(5, ledger.keptTo());
      CompletableFuture<Outgoing.Page> page = new CompletableFuture<>();
      ledger.readOutgoing(0, 10, page::complete);
      Entry.Message first = page.get(10, TimeUnit.SECONDS).messages().get(0);
      assertEquals("base/site/event", first.topic());
      assertEquals("RECORD", first.worth());
      assertEquals("{\"id\":2}", new String(first.payload(), UTF_8));
      assertEquals(List.of(2L, 4L), read(ledger, 0, 2));
      assertEquals(List.of(5L), read(ledger, 4, 2));
    }
  }

  @Test
  void readingComesAfterWhatWasHandedOverBefore() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), PATIENT)) {
      for (long n = 1; n <= 3000; n++) {
        ledger.offer(message(n, false));
      }
      assertEquals(LongStream.rangeClosed(2991, 3000).boxed().toList(), read(ledger, 2990, 100));
    }
  }

  @Test
  void oneThatIsDeliveredBeforeItWasWrittenIsNeverWritten() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), PATIENT)) {
      ledger.offer(event(0, true));
      await("the first commit", () -> ledger.health().commits() == 1);
      ledger.offer(message(1, false));
      ledger.offer(new Entry.Delivered(1));
      ledger.offer(message(2, false));
      assertEquals(List.of(2L), read(ledger, 0, 10));
    }
  }

  @Test
  void manyAcknowledgementsDoNotWaitForTheMinute() throws Exception {
    try (Ledger ledger = FileLedger.open(settings(file), PATIENT)) {
      IntStream.rangeClosed(1, 100).forEach(n -> ledger.offer(message(n, true)));
      await("kept", () -> ledger.keptTo() == 100);
      IntStream.rangeClosed(1, 100).forEach(n -> ledger.offer(new Entry.Delivered(n)));
      await("removed", () -> count() < 100 - 60);
    }
  }

  private long count() {
    try {
      return Long.parseLong(column(file, "SELECT count(*) FROM outbox").get(0));
    } catch (java.sql.SQLException e) {
      throw new AssertionError(e);
    }
  }

  /** Of two urgent entries either both are there or none, however often the writer runs between. */
  @Test
  void whatBelongsTogetherIsInOneCommit() throws Exception {
    AtomicLong torn = new AtomicLong();
    AtomicLong commits = new AtomicLong();
    try (Ledger ledger = FileLedger.open(settings(file), FAST)) {
      ledger.onCommit(
          () -> {
            commits.incrementAndGet();
            try {
              List<String> counts =
                  column(file, "SELECT (SELECT count(*) FROM event)-(SELECT count(*) FROM outbox)");
              if (!counts.equals(List.of("0"))) {
                torn.incrementAndGet();
              }
            } catch (java.sql.SQLException e) {
              throw new AssertionError(e);
            }
          });
      for (int n = 1; n <= 50; n++) {
        long number = n;
        ledger.together(
            () -> {
              ledger.offer(event((double) number, true));
              long untilNs = System.nanoTime() + 2_000_000; // time for the writer to come between
              while (System.nanoTime() < untilNs) {
                Thread.onSpinWait();
              }
              ledger.offer(message(number, true));
            });
        if (n == 1) {
          await("a first commit", () -> ledger.keptTo() == 1);
        }
      }
      await("all kept", () -> ledger.keptTo() == 50);
    }
    assertTrue(commits.get() > 1, commits + " commits");
    assertEquals(0, torn.get());
  }

  @Test
  void aDeadLedgerHoldsABoundedNumber() {
    Backlog backlog = new Backlog(10);
    for (int n = 1; n <= Outgoing.MESSAGES_MAX + 5; n++) {
      backlog.offer(message(n, true));
    }
    assertEquals(new Health.Dropped(0, 0, 5), backlog.dropped());
    assertEquals(Outgoing.MESSAGES_MAX, backlog.take().outgoing().added().size());
  }
}
