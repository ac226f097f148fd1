package limnostat.ledger;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import limnostat.config.LedgerSettings;

/**
 * The ledger of one installation; one owner at a time. {@link #offer}, {@link #booked} and {@link
 * #health} never wait for the disk and may be called by any thread.
 */
public final class Ledger implements AutoCloseable {
  private final Tuning tuning;
  private final Restored restored;
  private final Outgoing.Found outgoing;
  private final Backlog backlog;
  private final LedgerWriter writer;
  private final Thread thread;

  /** Takes over the lock and the open file, and begins to write. */
  Ledger(LedgerSettings settings, Tuning tuning, OwnerLock lock, Opening.Opened opened) {
    this.tuning = tuning;
    restored = opened.restored();
    outgoing = opened.outgoing();
    backlog = new Backlog(tuning.capacity());
    writer = new LedgerWriter(settings, tuning, backlog, lock, opened);
    thread = new Thread(writer, "ledger");
    thread.setDaemon(true); // a dead disk must not keep the process from ending
    thread.start();
  }

  /**
   * Opens or creates the file, checks it and brings its schema up to date. A damaged file is
   * renamed to {@code FILE.damaged-UNIXTIME}, with its -wal and -shm, and a new one begun; of one
   * whose account is not believed ({@link Restored#doubt}) a copy goes there. Waits for the disk.
   *
   * @throws LedgerException the ledger is in use, is newer than the program, is another program's
   *     database, or cannot be written; what, where and the mend
   */
  public static Ledger open(LedgerSettings settings) throws LedgerException {
    return open(settings, Tuning.DEFAULT);
  }

  static Ledger open(LedgerSettings given, Tuning tuning) throws LedgerException {
    return open(given, tuning, Machine.id());
  }

  static Ledger open(LedgerSettings given, Tuning tuning, String machine) throws LedgerException {
    LedgerSettings settings =
        new LedgerSettings(
            given.file().toAbsolutePath(), given.readingsEveryS(), given.keepReadingsDays());
    OwnerLock lock = OwnerLock.take(settings.file());
    try {
      NativeLibrary.load(settings.file());
      return new Ledger(settings, tuning, lock, Opening.first(settings.file(), tuning, machine));
    } catch (LedgerException | RuntimeException e) {
      try {
        lock.close();
      } catch (IOException release) {
        e.addSuppressed(release);
      }
      throw e;
    }
  }

  /** What was found at opening. */
  public Restored restored() {
    return restored;
  }

  /**
   * Hands over an entry. Never waits and never throws: when the backlog is full, the oldest
   * readings are dropped first, then the oldest events; bookings, the state and given amounts
   * coalesce; alarms, settings and tests go last, when nothing else is left. {@link #health}
   * counts.
   */
  public void offer(Entry entry) {
    backlog.offer(entry);
  }

  /**
   * Whatever the work offers goes into one commit, so that after a kill there is all of it or
   * nothing. The caller does not wait, the writer does.
   */
  public void together(Runnable work) {
    backlog.hold();
    try {
      work.run();
    } finally {
      backlog.release();
    }
  }

  /** Messages for the broker that were found at opening. */
  public Outgoing.Found outgoing() {
    return outgoing;
  }

  /** Every message up to this number has been committed, unless it was delivered before. */
  public long keptTo() {
    return writer.keptTo();
  }

  /**
   * Reads messages for the broker, as soon as what waits has been written; one wish at a time.
   *
   * @param after number after which to begin
   * @param most how many
   * @param reader called on the ledger's thread; must not wait or throw
   */
  public void readOutgoing(long after, int most, Consumer<Outgoing.Page> reader) {
    backlog.ask(new Outgoing.Request(after, most, reader));
  }

  /**
   * Called on the ledger's thread after each commit and each failed one; must not wait or throw.
   */
  public void onCommit(Runnable listener) {
    writer.onCommit(listener);
  }

  /** What is durably booked, the restored bookings included. */
  public Booked booked() {
    return writer.booked();
  }

  public Health health() {
    return writer.health();
  }

  /**
   * Writes what waits, moves the log into the file and closes. Ends after some seconds even if the
   * disk does not answer; then {@link #health} says so.
   */
  @Override
  public void close() {
    long limitNs = (long) (tuning.closeS() * 1e9);
    writer.close(System.nanoTime() + limitNs);
    try {
      // A commit that began in time may still wait for a lock, and so may closing the file.
      thread.join(TimeUnit.NANOSECONDS.toMillis(limitNs) + 2L * tuning.busyMs());
      if (thread.isAlive()) {
        writer.abandoned();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt(); // the caller wants to be off; the writer goes on alone
    }
  }
}
