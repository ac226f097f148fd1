package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Whose affair it is what a thread throws. */
@Timeout(60)
class LinkThreadsTest {
  private final List<Throwable> ofTheProcess = Collections.synchronizedList(new ArrayList<>());

  @Test
  void whatTheLibraryThrowsIsNoAffairOfTheProcess() throws Exception {
    List<Throwable> ofTheLink = Collections.synchronizedList(new ArrayList<>());
    LinkThreads threads = new LinkThreads();
    threads.onFailure(ofTheLink::add);
    RuntimeException bad = new IllegalArgumentException("Invalid UTF-8 char: [d83d]");
    Error memory = new OutOfMemoryError("provoked");
    RuntimeException own = new IllegalStateException("provoked");
    withHandler(
        () -> {
          end(new Thread(threads, throwing(bad), "MQTT Rec: limnostat-x"));
          end(new Thread(threads, throwing(memory), "Thread-0"));
          end(new Thread(threads, throwing(own), "mqtt"));
        });
    assertEquals(List.of(bad, memory), ofTheLink);
    assertEquals(List.of(own), ofTheProcess, "half a program is none");
  }

  @Test
  void itCostsTheConnectionAndTheNextOneIsGood() throws Exception {
    try (HostileBroker broker = new HostileBroker(HostileBroker.PROPER)) {
      withHandler(
          () -> {
            try (Link link = Links.connected(broker.port())) {
              Thread receiver = receiver();
              receiver
                  .getThreadGroup()
                  .uncaughtException(receiver, new ArrayIndexOutOfBoundsException("provoked"));
              Links.await("again", () -> broker.accepted() == 2 && link.health().connected());
              String cause = link.health().lastCause().orElseThrow();
              assertTrue(cause.contains("the link failed on what it sent"), cause);
              assertTrue(cause.contains("provoked"), cause);
            }
          });
    }
    assertEquals(List.of(), ofTheProcess);
  }

  private interface Trial {
    void run() throws Exception;
  }

  private void withHandler(Trial trial) throws Exception {
    Thread.UncaughtExceptionHandler before = Thread.getDefaultUncaughtExceptionHandler();
    Thread.setDefaultUncaughtExceptionHandler((thread, thrown) -> ofTheProcess.add(thrown));
    try {
      trial.run();
    } finally {
      Thread.setDefaultUncaughtExceptionHandler(before);
    }
  }

  private static Thread receiver() {
    return Thread.getAllStackTraces().keySet().stream()
        .filter(thread -> thread.getName().equals("MQTT Rec: limnostat-" + Links.SITE))
        .findFirst()
        .orElseThrow();
  }

  private static Runnable throwing(Throwable thrown) {
    return () -> {
      if (thrown instanceof Error error) {
        throw error;
      }
      throw (RuntimeException) thrown;
    };
  }

  private static void end(Thread thread) throws InterruptedException {
    thread.start();
    thread.join();
  }
}
