package limnostat.daemon;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Watches that scans go on: a scan that hangs has the outputs switched off from here and the
 * process ended, so that the service manager starts it anew. systemd's watchdog does the same from
 * outside, a little later.
 */
public final class HangGuard implements AutoCloseable {
  /** Exit status of a process that this guard ended: EX_SOFTWARE of sysexits.h. */
  public static final int EXIT_HUNG = 70;

  /** The outputs are given this long to be switched off, ms. */
  private static final long OFF_LIMIT_MS = 2000;

  private static final long LOOK_NS = TimeUnit.MILLISECONDS.toNanos(500);

  /** When this thread itself wakes this late the whole process was suspended, and no scan hangs. */
  private static final long SUSPENDED_NS = TimeUnit.SECONDS.toNanos(4);

  /**
   * For the first scan: what it uses is loaded and compiled meanwhile, on a cold card or with a
   * sixteenth of a core for ten seconds and more, and the outputs are off until it is done
   * (engineering judgement).
   */
  static final long FIRST_SCAN_NS = TimeUnit.SECONDS.toNanos(60);

  private final Runnable outputsOff;
  private final long periodNs;
  private final Thread thread;
  private volatile long aliveNs = System.nanoTime();
  private volatile boolean scanned;
  private volatile boolean closed;

  public HangGuard(Runnable outputsOff, long periodNs) {
    this.outputsOff = outputsOff;
    this.periodNs = periodNs;
    this.thread = new Thread(this::watch, "guard");
    thread.setDaemon(true);
    thread.start();
  }

  /** A whole scan is done. */
  public void alive(long nowNs) {
    aliveNs = nowNs;
    scanned = true;
  }

  /**
   * How long a scan may take until it counts as hanging, ns.
   *
   * @param scanned whether there was a whole scan before
   */
  static long limitNs(long periodNs, boolean scanned) {
    long usualNs = 2 * periodNs + TimeUnit.SECONDS.toNanos(8);
    return scanned ? usualNs : Math.max(usualNs, FIRST_SCAN_NS);
  }

  private void watch() {
    long lookedNs = System.nanoTime();
    while (!closed) {
      LockSupport.parkNanos(this, LOOK_NS);
      long nowNs = System.nanoTime();
      if (nowNs - lookedNs > SUSPENDED_NS) {
        aliveNs = nowNs;
      }
      lookedNs = nowNs;
      if (!closed && System.nanoTime() - aliveNs > limitNs(periodNs, scanned)) {
        end();
      }
    }
  }

  /** What made the scan hang may hang or fail here too, so the end waits for nothing. */
  private void end() {
    long hungS = TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - aliveNs);
    Thread last = new Thread(() -> lastWords(hungS), "guard-off");
    last.setDaemon(true);
    last.start();
    try {
      last.join(OFF_LIMIT_MS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      Runtime.getRuntime().halt(EXIT_HUNG);
    }
  }

  private void lastWords(long hungS) {
    outputsOff.run();
    System.err.println(
        "<2>limnostat: no scan for " + hungS + " s; outputs switched off, process ended");
  }

  @Override
  public void close() {
    closed = true;
    LockSupport.unpark(thread);
  }
}
