package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicLong;
import limnostat.config.LedgerSettings;

/**
 * The thread that writes. A batch that could not be committed is kept and tried again before
 * anything newer. Meanwhile the backlog continues to fill, and to drop entries by its rule.
 */
final class LedgerWriter implements Runnable {
  private static final double NS = 1e9;
  private static final double DAY_S = 86_400;
  private static final long CLOSING_RETRY_NS = 250_000_000;

  /**
   * A commit that takes longer counts as failing; worn cards take seconds (engineering judgement).
   */
  private static final double STUCK_S = 15;

  private final Path file;
  private final Tuning tuning;
  private final Backlog backlog;
  private final OwnerLock lock;
  private final Retention retention;

  /** A new file soon gets a checkpoint, so that its content is not only in the log for long. */
  private static final double FIRST_CHECKPOINT_S = 60;

  // Used only by the writer's thread.
  private final AccountRecord record;
  private final Standing standing;
  private Optional<Database> database;
  private Optional<Batch> failed = Optional.empty();

  /** The part of the current batch that must be tried again if something fails now. */
  private Batch owed = Batch.of(List.of());

  private boolean failedClosing;
  private double retryS;
  private long retryAtNs;
  private long batchAtNs = System.nanoTime();
  private boolean cleanedByAge;
  private double cleanAtS;
  private double checkpointAtS;
  private long expiredId;

  // Written by the writer's thread, read by any thread.
  private final AtomicLong commits = new AtomicLong();
  private volatile Booked booked;
  private volatile long keptTo;
  private volatile long committedTo;
  private volatile Runnable listener = () -> {};
  private volatile OptionalDouble failingSinceS = OptionalDouble.empty();
  private volatile Optional<String> lastError = Optional.empty();
  private volatile OptionalDouble commitSinceS = OptionalDouble.empty();
  private volatile double worstCommitS;
  private volatile long closeByNs;

  LedgerWriter(
      LedgerSettings settings,
      Tuning tuning,
      Backlog backlog,
      OwnerLock lock,
      Opening.Opened opened) {
    this.file = settings.file();
    this.tuning = tuning;
    this.backlog = backlog;
    this.lock = lock;
    this.retention = new Retention(settings);
    this.record = opened.record();
    this.standing = opened.standing();
    this.database = Optional.of(opened.database());
    this.booked = Booked.of(standing.bookings());
    this.keptTo = opened.outgoing().newest();
    this.retryS = tuning.firstRetryS();
    this.cleanAtS = nowS();
    this.checkpointAtS = nowS() + Math.min(FIRST_CHECKPOINT_S, tuning.checkpointEveryS());
  }

  Booked booked() {
    return booked;
  }

  long keptTo() {
    return keptTo;
  }

  /** How many of the offered entries have been committed, in the order of offering. */
  long committedTo() {
    return committedTo;
  }

  void onCommit(Runnable called) {
    listener = called;
  }

  Health health() {
    OptionalDouble failing = failingSinceS;
    OptionalDouble running = commitSinceS;
    if (failing.isEmpty() && running.isPresent() && nowS() - running.getAsDouble() > STUCK_S) {
      failing = running;
    }
    return new Health(failing, lastError, backlog.dropped(), commits.get(), worstCommitS);
  }

  /**
   * Lets the waiting entries be written, then ends the thread.
   *
   * @param byNs {@link System#nanoTime} after which nothing is tried again
   */
  void close(long byNs) {
    closeByNs = byNs; // before the writer sees that the backlog is closed
    backlog.close();
  }

  @Override
  public void run() {
    try {
      while (!ended()) {
        awaitTurn();
        writeOnce();
      }
    } catch (InterruptedException | RuntimeException | Error e) {
      note("ledger " + file + ": the writer's thread ended (" + e + "); restart the service");
      if (e instanceof Error error) {
        throw error;
      }
    } finally {
      backlog.close();
      shut();
    }
  }

  private boolean ended() {
    return backlog.closed()
        && (System.nanoTime() - closeByNs >= 0 || (failed.isEmpty() && backlog.isEmpty()));
  }

  private void awaitTurn() throws InterruptedException {
    if (failed.isPresent()) {
      backlog.awaitRetry(retryAtNs, failedClosing);
    } else if (expiredId == 0) {
      backlog.awaitWork(batchAtNs);
    }
  }

  private void writeOnce() {
    // Taken before the batch: what was handed over before the request is then in the batch.
    Optional<Outgoing.Request> request =
        failed.isPresent() ? Optional.empty() : backlog.takeRequest();
    Batch batch = failed.orElseGet(backlog::take);
    if (failed.isPresent() || !batch.isEmpty()) {
      commit(batch);
      listener.run();
    }
    request.ifPresent(failed.isEmpty() ? this::read : backlog::ask);
    if (failed.isEmpty() && !backlog.closed() && !backlog.urgent()) {
      removeOldReadings(batch.trustedUnixTimeS());
      checkpoint();
    }
  }

  /**
   * Frequent checkpoints would wear out the card; without any, losing the log would lose
   * everything.
   */
  private void checkpoint() {
    if (database.isEmpty() || nowS() < checkpointAtS) {
      return;
    }
    checkpointAtS = nowS() + tuning.checkpointEveryS();
    try {
      database.get().checkpoint();
    } catch (SQLException e) {
      fail(standing.all(), e); // rewriting what is known is a harmless trial
    }
  }

  private void read(Outgoing.Request request) {
    try {
      List<Entry.Message> messages =
          OutboxSql.after(database.orElseThrow().connection(), request.after(), request.most());
      request.reader().accept(new Outgoing.Page(messages, keptTo));
    } catch (SQLException e) {
      backlog.ask(request);
      fail(standing.all(), e); // a harmless trial write before the next read
    }
  }

  private void commit(Batch batch) {
    double beginS = nowS();
    commitSinceS = OptionalDouble.of(beginS);
    owed = batch;
    try {
      if (database.isEmpty()) {
        database = Optional.of(Opening.again(file, tuning));
        // The file may be a new one: it must hold what is known before anything is added.
        put(database.get(), standing.all());
        owed = batch;
      }
      put(database.get(), batch);
      confirmed();
      worstCommitS = Math.max(worstCommitS, nowS() - beginS);
    } catch (SQLException | LedgerException | RuntimeException e) {
      fail(owed, e);
    } finally {
      commitSinceS = OptionalDouble.empty();
    }
  }

  /**
   * Commits, then writes the record of the commit. Nothing counts as booked until both are on the
   * disk.
   */
  private void put(Database open, Batch batch) throws SQLException, LedgerException {
    Optional<Seal> seal = standing.with(batch);
    open.write(batch, seal);
    keptTo = Math.max(keptTo, batch.outgoing().newest());
    if (seal.isPresent()) {
      owed = batch.account(); // the rest is written; a second write would duplicate it
      try {
        record.write(seal.get());
      } catch (IOException e) {
        throw new LedgerException(
            "ledger " + file + ": cannot write " + record.file() + " (" + e + "); check the disk",
            e);
      }
    }
    standing.took(batch, seal.isPresent());
    booked = Booked.of(standing.bookings());
  }

  private void confirmed() {
    committedTo = backlog.taken(); // nothing is taken while a batch waits for a retry
    commits.incrementAndGet();
    failed = Optional.empty();
    failingSinceS = OptionalDouble.empty();
    retryS = tuning.firstRetryS();
    batchAtNs = System.nanoTime() + ns(tuning.batchEveryS());
  }

  private void fail(Batch batch, Exception e) {
    failed = Optional.of(batch);
    boolean sameConnection = e instanceof SQLException sql && SqliteError.of(sql).passes();
    if (!sameConnection) {
      closeDatabase(e);
    }
    note(text(e));
    failedClosing = backlog.closed();
    long nowNs = System.nanoTime();
    retryAtNs =
        nowNs + (failedClosing ? Math.min(CLOSING_RETRY_NS, closeByNs - nowNs) : ns(retryS));
    retryS = Math.min(2 * retryS, tuning.lastRetryS());
  }

  private void note(String error) {
    lastError = Optional.of(error);
    if (failingSinceS.isEmpty()) {
      failingSinceS = OptionalDouble.of(nowS());
    }
  }

  private String text(Exception e) {
    if (e instanceof LedgerException) {
      return e.getMessage();
    } else if (e instanceof SQLException sql) {
      return LedgerException.of(file, sql).getMessage();
    } else {
      return "ledger " + file + ": " + e + "; a fault of the program, please report it";
    }
  }

  /** Runs at the first trusted time and then daily; deletes one slice per turn. */
  private void removeOldReadings(OptionalDouble unixTimeS) {
    if (database.isEmpty()) {
      return;
    }
    try {
      boolean firstTrusted = unixTimeS.isPresent() && !cleanedByAge;
      if (firstTrusted || nowS() >= cleanAtS) {
        expiredId = retention.expiredId(database.get().connection(), unixTimeS);
        cleanedByAge |= unixTimeS.isPresent();
        cleanAtS = nowS() + DAY_S;
      }
      if (expiredId > 0 && !Retention.deleteSlice(database.get().connection(), expiredId)) {
        expiredId = 0;
      }
    } catch (SQLException e) {
      expiredId = 0;
      fail(standing.all(), e); // rewriting what is known is a harmless trial
    }
  }

  private void closeDatabase(Exception cause) {
    try {
      if (database.isPresent()) {
        database.get().close();
      }
    } catch (SQLException e) {
      cause.addSuppressed(e);
    }
    database = Optional.empty();
  }

  private void shut() {
    try (lock) {
      if (database.isPresent()) {
        try (Database open = database.get()) {
          if (failingSinceS.isEmpty()) {
            open.empty();
          }
        }
      }
    } catch (SQLException e) {
      note(text(e));
    } catch (IOException e) {
      note("ledger " + file + ": cannot release its lock (" + e + "); restart the service");
    }
  }

  /** Notes that closing has given up waiting for this thread. */
  void abandoned() {
    note("ledger " + file + ": the disk does not answer; check the disk and the system's log");
  }

  private static long ns(double seconds) {
    return (long) (seconds * NS);
  }

  private static double nowS() {
    return System.nanoTime() / NS;
  }
}
