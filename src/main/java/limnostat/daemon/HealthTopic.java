package limnostat.daemon;

import java.util.concurrent.TimeUnit;
import limnostat.ledger.Health;
import limnostat.ledger.Ledger;
import limnostat.mqtt.Link;
import limnostat.mqtt.LinkHealth;
import limnostat.safety.RunHealth;
import limnostat.wire.HealthDocument;

/**
 * Publishes the daemon's health: at once, then every minute. Owned by the scan thread; never waits.
 */
final class HealthTopic {
  private static final long EVERY_NS = TimeUnit.SECONDS.toNanos(60);

  private final Link link;
  private final Ledger ledger;
  private final Clock clock;
  private long dueNs = System.nanoTime();

  HealthTopic(Link link, Ledger ledger, Clock clock) {
    this.link = link;
    this.ledger = ledger;
    this.clock = clock;
  }

  /**
   * @param run how the program itself has run, across restarts
   */
  void tell(ScanTiming timing, RunHealth run, long nowNs) {
    if (nowNs - dueNs < 0) {
      return;
    }
    dueNs = nowNs + EVERY_NS;
    Health written = ledger.health();
    LinkHealth sent = link.health();
    HealthDocument health =
        new HealthDocument(
            timing.scans(),
            timing.late(),
            timing.overruns(),
            timing.worstLatenessS(),
            timing.worstDurationS(),
            run.ends().size(),
            (int) run.ends().stream().filter(RunHealth.End::orderly).count(),
            written.failingSinceS().isPresent(),
            written.worstCommitS(),
            sent.attempts(),
            sent.droppedEvents(),
            sent.waiting(),
            sent.thinnedReadings());
    link.retain("health", health.at(clock.unixTimeS()));
  }
}
