package limnostat.daemon;

import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** What befalls a process once it has fed for a few scans. */
final class Trouble {
  private enum Kind {
    NONE,
    /** Asked to stop; not by this. */
    STOP,
    /** An error in the scan's own thread. */
    ERROR,
    /** An exception in another thread. */
    THREAD,
    /** The scan's own thread takes all the memory. */
    MEMORY,
    /** Another thread takes all the memory and holds it. */
    MEMORY_ELSEWHERE,
    /** A read that never returns. */
    HANG,
    /** The very first read takes longer than any later one may. */
    SLOW_START
  }

  private static final long SLOW_NS = TimeUnit.SECONDS.toNanos(13);

  private static final int SCANS = 5;

  private final Kind kind;
  private int fed;
  private boolean begun;

  private Trouble(Kind kind) {
    this.kind = kind;
  }

  static Trouble of(String name) {
    return new Trouble(Kind.valueOf(name.toUpperCase(Locale.ROOT)));
  }

  void feeds(boolean feeds) {
    fed = feeds ? fed + 1 : 0;
  }

  void befall() {
    if (kind == Kind.SLOW_START && !begun) {
      LockSupport.parkNanos(SLOW_NS);
    }
    begun = true;
    if (fed != SCANS) {
      return;
    }
    switch (kind) {
      case NONE, STOP, SLOW_START -> {}
      case ERROR -> throw new AssertionError("provoked");
      case THREAD ->
          new Thread(
                  () -> {
                    throw new IllegalStateException("provoked");
                  },
                  "other")
              .start();
      case MEMORY -> hoard();
      case MEMORY_ELSEWHERE -> new Thread(Trouble::hoard, "other").start();
      case HANG -> {
        try {
          new CountDownLatch(1).await();
        } catch (InterruptedException e) {
          Thread.currentThread().interrupt();
        }
      }
    }
  }

  /** Each piece holds the one before. */
  private static void hoard() {
    Object[] all = new Object[0];
    while (true) {
      Object[] piece = new Object[16 * 1024];
      piece[0] = all;
      all = piece;
    }
  }
}
