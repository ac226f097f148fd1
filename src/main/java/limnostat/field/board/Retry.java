package limnostat.field.board;

import java.util.concurrent.TimeUnit;

/** When a failed device is tried again: after 1 s, then 2 s, 4 s, up to 60 s. */
final class Retry {
  private static final long FIRST_NS = TimeUnit.SECONDS.toNanos(1);
  private static final long LONGEST_NS = TimeUnit.SECONDS.toNanos(60);

  private long waitNs;
  private long dueNs;

  boolean due(long nowNs) {
    return waitNs == 0 || nowNs - dueNs >= 0;
  }

  void failed(long nowNs) {
    waitNs = waitNs == 0 ? FIRST_NS : Math.min(2 * waitNs, LONGEST_NS);
    dueNs = nowNs + waitNs;
  }

  void succeeded() {
    waitNs = 0;
  }
}
