package limnostat.ledger;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import limnostat.config.LedgerSettings;

/** The ledger in its file: a bounded backlog and the thread that writes it. */
final class FileLedger implements Ledger {
  private final Tuning tuning;
  private final Restored restored;
  private final Outgoing.Found outgoing;
  private final Backlog backlog;
  private final LedgerWriter writer;
  private final Thread thread;

  /** Takes over the lock and the open file, and starts to write. */
  FileLedger(LedgerSettings settings, Tuning tuning, OwnerLock lock, Opening.Opened opened) {
    this.tuning = tuning;
    restored = opened.restored();
    outgoing = opened.outgoing();
    backlog = new Backlog(tuning.capacity());
    writer = new LedgerWriter(settings, tuning, backlog, lock, opened);
    thread = new Thread(writer, "ledger");
    thread.setDaemon(true); // a dead disk must not keep the process from ending
    thread.start();
  }

  static FileLedger open(LedgerSettings given, Tuning tuning) throws LedgerException {
    return open(given, tuning, Machine.id());
  }

  static FileLedger open(LedgerSettings given, Tuning tuning, String machine)
      throws LedgerException {
    LedgerSettings settings =
        new LedgerSettings(
            given.file().toAbsolutePath(), given.readingsEveryS(), given.keepReadingsDays());
    OwnerLock lock = OwnerLock.take(settings.file());
    try {
      NativeLibrary.load(settings.file());
      return new FileLedger(
          settings, tuning, lock, Opening.first(settings.file(), tuning, machine));
    } catch (LedgerException | RuntimeException e) {
      try {
        lock.close();
      } catch (IOException release) {
        e.addSuppressed(release);
      }
      throw e;
    }
  }

  @Override
  public Restored restored() {
    return restored;
  }

  @Override
  public void offer(Entry entry) {
    backlog.offer(entry);
  }

  @Override
  public void together(Runnable work) {
    backlog.hold();
    try {
      work.run();
    } finally {
      backlog.release();
    }
  }

  @Override
  public long mark() {
    return backlog.mark();
  }

  @Override
  public boolean committed(long mark) {
    return writer.committedTo() >= mark;
  }

  @Override
  public Outgoing.Found outgoing() {
    return outgoing;
  }

  @Override
  public long keptTo() {
    return writer.keptTo();
  }

  @Override
  public void readOutgoing(long after, int most, Consumer<Outgoing.Page> reader) {
    backlog.ask(new Outgoing.Request(after, most, reader));
  }

  @Override
  public void onCommit(Runnable listener) {
    writer.onCommit(listener);
  }

  @Override
  public Booked booked() {
    return writer.booked();
  }

  @Override
  public Health health() {
    return writer.health();
  }

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
      Thread.currentThread().interrupt(); // the caller wants to exit; the writer continues alone
    }
  }
}
