package limnostat.mqtt;

import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/**
 * The mqtt thread and those of the library, which are begun below it and so belong to its group.
 * What one of the library's throws and nobody catches is the link's affair and costs its
 * connection; the process goes on. Out of memory too: what the library held goes with the
 * connection, and where the memory is short by somebody else, the scan's own thread meets it.
 */
final class LinkThreads extends ThreadGroup {
  private volatile Consumer<Throwable> failed = thrown -> {};

  LinkThreads() {
    super("mqtt");
  }

  /** From any thread; must not throw. */
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

  /** How many threads of the library there are. */
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
