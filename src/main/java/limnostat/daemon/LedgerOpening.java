package limnostat.daemon;

import java.util.Optional;
import java.util.concurrent.TimeUnit;
import limnostat.config.LedgerSettings;
import limnostat.ledger.Ledger;
import limnostat.ledger.LedgerException;

/**
 * Opens the ledger on its own thread. It retries while the disk is full, read-only, missing or does
 * not answer, so that the daemon can report this meanwhile.
 */
public final class LedgerOpening implements AutoCloseable {
  /** Pause between two attempts, ms (engineering judgement). */
  private static final long RETRY_MS = 5000;

  private final LedgerSettings settings;
  private final Thread thread;
  private Optional<Ledger> ledger = Optional.empty();
  private Optional<LedgerException> trouble = Optional.empty();
  private boolean closed;

  public LedgerOpening(LedgerSettings settings) {
    this.settings = settings;
    thread = new Thread(this::open, "ledger-opening");
    thread.setDaemon(true); // a dead disk must not keep the process from ending
    thread.start();
  }

  private void open() {
    try {
      while (attempt()) {
        rest();
      }
    } catch (InterruptedException e) {
      // The process is ending.
      return;
    }
  }

  /** Returns true if it should try again. */
  private boolean attempt() {
    try {
      Ledger opened = Ledger.open(settings);
      if (!deliver(opened)) {
        opened.close();
      }
      return false;
    } catch (LedgerException e) {
      return failed(e);
    }
  }

  private synchronized boolean deliver(Ledger opened) {
    if (!closed) {
      ledger = Optional.of(opened);
      notifyAll();
    }
    return !closed;
  }

  private synchronized boolean failed(LedgerException e) {
    trouble = Optional.of(e);
    notifyAll();
    return e.disk() && !closed;
  }

  private synchronized void rest() throws InterruptedException {
    long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(RETRY_MS);
    while (!closed && System.nanoTime() < untilNs) {
      TimeUnit.NANOSECONDS.timedWait(this, Math.max(1, untilNs - System.nanoTime()));
    }
  }

  /**
   * Waits until the ledger is open, an attempt has failed, this is closed, or the time has passed,
   * ms.
   */
  synchronized void await(long ms) throws InterruptedException {
    long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(ms);
    while (ledger.isEmpty() && trouble.isEmpty() && !closed) {
      long leftNs = untilNs - System.nanoTime();
      if (leftNs <= 0) {
        return;
      }
      TimeUnit.NANOSECONDS.timedWait(this, leftNs);
    }
  }

  /** Whether it is open, or will never open without a person's action. */
  synchronized boolean over() {
    return ledger.isPresent() || trouble.filter(e -> !e.disk()).isPresent();
  }

  /** Why it is not open: what failed, where, and the remedy. */
  synchronized String reason() {
    return trouble
        .map(LedgerException::getMessage)
        .orElse(
            "ledger "
                + settings.file()
                + ": the disk does not answer; check the disk and the system's log");
  }

  /**
   * The open ledger, which the caller owns from now on; empty if it is not open.
   *
   * @throws LedgerException it will never open without a person's action
   */
  synchronized Optional<Ledger> take() throws LedgerException {
    if (ledger.isEmpty() && trouble.isPresent() && !trouble.get().disk()) {
      throw trouble.get();
    }
    Optional<Ledger> taken = ledger;
    ledger = Optional.empty();
    return taken;
  }

  /** From any thread: the ledger is no longer wanted. */
  @Override
  public void close() {
    Optional<Ledger> left;
    synchronized (this) {
      closed = true;
      left = ledger;
      ledger = Optional.empty();
      notifyAll();
    }
    left.ifPresent(Ledger::close);
  }
}
