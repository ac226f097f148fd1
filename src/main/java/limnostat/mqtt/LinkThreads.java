package limnostat.mqtt;

import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/**
 * The mqtt thread and the library's threads, which start below it and so belong to its group.
 * Anything uncaught in a library thread only costs the connection, and the process continues. The
 * same goes for running out of memory: what the library held is freed with the connection. If
 * something else uses up the memory, the scan thread will notice it.
 */
final class LinkThreads extends ThreadGroup {
  private volatile Consumer<Throwable> failed = thrown -> {};

  LinkThreads() {
    super("mqtt");
  }

  /** Called from any thread; must not throw. */
  void onFailure(Consumer<Throwable> taker) {
    failed = taker;
  }

  @Override
  public void uncaughtException(Thread thread, Throwable thrown) {
    if (ofLibrary(thread.getName())) {
      failed.accept(thrown);
    } else {
      super.uncaughtException(thread, thrown);
    }
  }

  /** Number of library threads that are running. */
  int running() {
    return (int) names().stream().filter(LinkThreads::ofLibrary).count();
  }

  /** Whether the library is still about to connect; a thread is named once it runs. */
  boolean connecting() {
    return names().stream()
        .anyMatch(name -> name.startsWith("MQTT Con: ") || name.startsWith("Thread-"));
  }

  private List<String> names() {
    Thread[] threads = new Thread[activeCount() + 16];
    int n = enumerate(threads, false);
    return Arrays.stream(threads, 0, n).map(Thread::getName).toList();
  }

  private static boolean ofLibrary(String name) {
    return name.startsWith("MQTT ") || name.startsWith("Thread-");
  }
}
