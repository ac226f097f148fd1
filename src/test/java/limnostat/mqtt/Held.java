package limnostat.mqtt;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What links hold of this process: threads, open files, memory. */
final class Held {
  /** A link's own thread, the library's four, and some that end while the next ones begin. */
  static final int THREADS_OF_A_LINK_MAX = 7;

  /** Longer than a session waits for the library's threads to end. */
  private static final long WAIT_NANOS = TimeUnit.SECONDS.toNanos(30);

  private Held() {}

  /** Names of the threads of all links. */
  static List<String> threads() {
    return Thread.getAllStackTraces().keySet().stream()
        .filter(thread -> thread.getThreadGroup() instanceof LinkThreads)
        .map(Thread::getName)
        .toList();
  }

  /** Waits until no link has a thread; fails with where those are that it still has. */
  static void awaitNoThread() throws InterruptedException {
    long endNanos = System.nanoTime() + WAIT_NANOS;
    while (!threads().isEmpty()) {
      if (System.nanoTime() - endNanos > 0) {
        throw new AssertionError("threads left: " + stacks());
      }
      Thread.sleep(20);
    }
  }

  private static String stacks() {
    return Thread.getAllStackTraces().entrySet().stream()
        .filter(each -> each.getKey().getThreadGroup() instanceof LinkThreads)
        .map(
            each ->
                each.getKey().getName()
                    + Arrays.stream(each.getValue())
                        .map(frame -> "\n  at " + frame)
                        .collect(Collectors.joining()))
        .collect(Collectors.joining("\n", "\n", ""));
  }

  /** Descriptors that are open. */
  static long files() {
    try (Stream<Path> open = Files.list(Path.of("/proc/self/fd"))) {
      return open.count();
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  /** What is left after a collection, bytes. */
  static long liveBytes() throws InterruptedException {
    long least = Long.MAX_VALUE;
    for (int i = 0; i < 3; i++) {
      System.gc();
      Thread.sleep(100);
      Runtime runtime = Runtime.getRuntime();
      least = Math.min(least, runtime.totalMemory() - runtime.freeMemory());
    }
    return least;
  }
}
