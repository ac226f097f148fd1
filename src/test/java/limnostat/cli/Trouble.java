package limnostat.cli;

import java.util.Locale;
import java.util.concurrent.CountDownLatch;

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
    HANG
  }

  private static final int SCANS = 5;

  private final Kind kind;
  private int fed;

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
    if (fed != SCANS) {
      return;
    }
    switch (kind) {
      case NONE, STOP -> {}
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
