package limnostat.daemon;

import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.scan.ScanOutcome;

/**
 * The scan thread: one cycle each period, and one at once when the flow input changes, until it is
 * stopped. Everything slow sits behind a queue, so a late scan means that the machine is too busy.
 * Late scans are counted and reported.
 */
public final class Daemon {
  /** A scan that starts later than this after its due time is late, s. */
  private static final double LATE_S = 0.5;

  /** A scan that takes more than this share of its period is too long (engineering judgement). */
  private static final double LONG_SHARE = 0.8;

  /** For the first scan the service manager waits longer than the guard does, s. */
  public static final long START_S = TimeUnit.NANOSECONDS.toSeconds(HangGuard.FIRST_SCAN_NS) + 30;

  private final ScanCycle cycle;
  private final CommandInbox inbox;
  private final EventLog log;
  private final ServiceNotifier notifier;
  private final HealthTopic health;
  private final long periodNs;
  private final ScanTiming timing;
  private final Thread thread;
  private volatile boolean stopping;
  private volatile boolean edge;

  /** Call on the thread that will call {@link #run}. */
  Daemon(
      ScanCycle cycle,
      Field field,
      CommandInbox inbox,
      EventLog log,
      ServiceNotifier notifier,
      HealthTopic health,
      double periodS) {
    this.cycle = cycle;
    this.inbox = inbox;
    this.log = log;
    this.notifier = notifier;
    this.health = health;
    this.periodNs = (long) (periodS * 1e9);
    this.timing = new ScanTiming(LATE_S, LONG_SHARE * periodS);
    this.thread = Thread.currentThread();
    field.onFlowEdge(
        () -> {
          edge = true;
          LockSupport.unpark(thread);
        });
  }

  /** Scans until {@link #stop}. The outputs are off when it returns, whatever the reason. */
  void run() {
    run(() -> false);
  }

  /** The same, until it is stopped or the condition is true. */
  void run(BooleanSupplier over) {
    // The guard stays until after the last switch-off, which may hang like any other.
    try (HangGuard guard = new HangGuard(cycle::off, periodNs)) {
      boolean orderly = false;
      try {
        scan(guard, over);
        orderly = true;
      } finally {
        cycle.close(orderly);
        log.info("stopped, outputs off; " + timing.summary());
      }
    }
  }

  private void scan(HangGuard guard, BooleanSupplier over) {
    notifier.starting(START_S);
    boolean first = true;
    long dueNs = System.nanoTime();
    while (!stopping && !over.getAsBoolean()) {
      edge = false;
      long beganNs = System.nanoTime();
      ScanOutcome outcome = cycle.once(inbox.take(), timing.overran());
      inbox.answered(outcome.events());
      long endedNs = System.nanoTime();
      guard.alive(endedNs);
      timing.scanned(Math.max(0, beganNs - dueNs), endedNs - beganNs).ifPresent(log::warn);
      if (first) {
        first = false;
        notifier.ready();
        log.info("first scan done; outputs are off until flow is proven and the probes are good");
      }
      vouch(endedNs);
      notifier.status(status(outcome));
      health.tell(timing, outcome.state().safety().run(), endedNs);
      dueNs = next(dueNs, endedNs);
      sleepUntil(dueNs);
      if (edge) {
        dueNs = System.nanoTime();
      }
    }
  }

  /**
   * Feeds both watchdogs: that of the service manager, and the relay on the heartbeat output. Only
   * a complete scan whose outputs were driven and read back feeds them.
   */
  private void vouch(long nowNs) {
    if (cycle.driven()) {
      notifier.watchdog(nowNs);
      cycle.beat();
    }
  }

  /**
   * From any thread: switches the outputs off at once, even if a scan hangs. No further scan
   * begins.
   */
  void stop() {
    stopping = true;
    cycle.off();
    notifier.stopping();
    LockSupport.unpark(thread);
  }

  /** The next due time. Missed periods are skipped, not made up for. */
  private long next(long dueNs, long nowNs) {
    long next = dueNs + periodNs;
    return next >= nowNs ? next : nowNs;
  }

  private void sleepUntil(long dueNs) {
    for (long leftNs = dueNs - System.nanoTime();
        leftNs > 0 && !stopping && !edge;
        leftNs = dueNs - System.nanoTime()) {
      LockSupport.parkNanos(this, leftNs);
    }
  }

  private static String status(ScanOutcome outcome) {
    return String.format(
        Locale.ROOT,
        "mode %s, chlorine %s, free chlorine %.1f mg/L, %d alarms",
        outcome.state().control().mode().key(),
        outcome.outputs().chlorine() > 0 ? "on" : "off",
        outcome.estimate().freeChlorineMgL(),
        outcome.state().alarms().size());
  }
}
