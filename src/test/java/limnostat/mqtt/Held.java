package limnostat.mqtt;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** What links hold of this process: threads, open files, memory. */
final class Held {
  /** A link's own thread, the library's four, and some that end while the next ones begin. */
  static final int THREADS_OF_A_LINK_MAX = 7;

  private Held() {}

  /** Names of the threads of all links. */
  static List<String> threads() {
    return Thread.getAllStackTraces().keySet().stream()
        .filter(thread -> thread.getThreadGroup() instanceof LinkThreads)
        .map(Thread::getName)
        .toList();
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
