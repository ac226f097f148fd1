package limnostat.mqtt;

import java.time.Duration;
import java.util.function.DoubleSupplier;

/** How long to wait before the next attempt. */
final class BackOff {
  private final LinkTimes times;
  private final DoubleSupplier random;
  private Duration next;

  /**
   * @param random 0–1, for the jitter: after a restart of the broker its clients should not all
   *     connect at once
   */
  BackOff(LinkTimes times, DoubleSupplier random) {
    this.times = times;
    this.random = random;
    this.next = times.firstPause();
  }

  /** Called when a connection was good. */
  void reset() {
    next = times.firstPause();
  }

  Duration pause(boolean mendsItself) {
    if (!mendsItself) {
      return jitter(times.slowPause());
    }
    Duration pause = jitter(next);
    Duration doubled = next.multipliedBy(2);
    next = doubled.compareTo(times.longestPause()) < 0 ? doubled : times.longestPause();
    return pause;
  }

  /** ±20 %. */
  private Duration jitter(Duration pause) {
    return Duration.ofNanos((long) (pause.toNanos() * (0.8 + 0.4 * random.getAsDouble())));
  }
}
