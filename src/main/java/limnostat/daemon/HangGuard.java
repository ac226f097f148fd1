package limnostat.daemon;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Checks that scans continue. If a scan hangs, this guard switches the outputs off and ends the
 * process, so that the service manager restarts it. systemd's watchdog does the same from outside,
 * a little later.
 */
public final class HangGuard implements AutoCloseable {
  /** Exit status of a process that this guard has ended: EX_SOFTWARE of sysexits.h. */
  public static final int EXIT_HUNG = 70;

  /** Longest wait for the outputs to switch off, ms. */
  private static final long OFF_LIMIT_MS = 2000;

  private static final long LOOK_NS = TimeUnit.MILLISECONDS.toNanos(500);

  /** If this thread itself wakes this late, the whole process was suspended and no scan hangs. */
  private static final long SUSPENDED_NS = TimeUnit.SECONDS.toNanos(4);

  /**
   * For the first scan: its classes are loaded and compiled meanwhile, which takes ten seconds and
   * more on a cold card or with a sixteenth of a core. The outputs are off until it is done
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

  /** Call when a scan is complete. */
  public void alive(long nowNs) {
    aliveNs = nowNs;
    scanned = true;
  }

  /**
   * How long a scan may take before it counts as hung, ns.
   *
   * @param scanned whether a scan has been completed before
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

  /** What made the scan hang may hang or fail here too, so the exit waits for nothing. */
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
