package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * One packet that no broker may send, of each kind: it costs the connection on which it came, with
 * the reason, and the next connection is as good as ever. Nothing is thrown that nobody catches.
 */
@Timeout(120)
class WrongPacketIT {
  private static final int AT_ONCE = 12;

  private static final LinkTimes PATIENT =
      new LinkTimes(
          Duration.ofSeconds(10),
          Duration.ofSeconds(20),
          Duration.ofSeconds(60),
          Duration.ofMillis(50),
          Duration.ofMillis(50),
          Duration.ofMinutes(5),
          Duration.ofSeconds(2));

  private final Queue<Throwable> uncaught = new ConcurrentLinkedQueue<>();
  private final Map<String, WrongPacket> due = new ConcurrentHashMap<>();

  @Test
  void eachCostsItsConnectionAndNoMore() throws Exception {
    Thread.UncaughtExceptionHandler before = Thread.getDefaultUncaughtExceptionHandler();
    Thread.setDefaultUncaughtExceptionHandler((thread, thrown) -> uncaught.add(thrown));
    ExecutorService trials = Executors.newFixedThreadPool(AT_ONCE);
    try (HostileBroker broker = new HostileBroker(this::serve)) {
      int kinds = WrongPacket.all("").size();
      List<Future<?>> running = new ArrayList<>();
      for (int i = 0; i < kinds; i++) {
        String site = "s" + i;
        WrongPacket wrong = WrongPacket.all("base/" + site + "/command").get(i);
        due.put("limnostat-" + site, wrong);
        running.add(trials.submit(() -> attempt(site, wrong, broker)));
      }
      for (Future<?> trial : running) {
        trial.get();
      }
      assertTrue(kinds > 80, kinds + " kinds");
      assertEquals(2 * kinds, broker.accepted(), "one bad connection and one good each");
    } finally {
      trials.shutdownNow();
      Thread.setDefaultUncaughtExceptionHandler(before);
    }
    assertEquals(List.of(), List.copyOf(uncaught));
  }

  private void serve(Caller caller) throws IOException {
    Caller.Packet connect = caller.next();
    WrongPacket wrong = due.remove(connect.clientId());
    if (wrong != null && wrong.answered() == Caller.CONNECT) {
      caller.send(wrong.bytes().apply(0));
      caller.listenOnly();
    }
    caller.answer(connect);
    if (wrong != null) {
      wrong.serve(caller);
    }
    caller.serveForEver();
  }

  private static Void attempt(String site, WrongPacket wrong, HostileBroker broker)
      throws InterruptedException {
    try (Link link =
        new Link(
            Links.plain(broker.port()),
            site,
            Password.fixed(Optional.empty()),
            Keeper.NONE,
            PATIENT)) {
      link.event("event", Links.bytes("x"));
      link.start();
      Links.await(
          wrong.name() + ": a second, good connection, but " + link.health(),
          () -> link.health().connected() && link.health().attempts() > 1);
      Links.await(wrong.name() + ": all acknowledged", () -> link.health().waiting() == 0);
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("sent what no broker may"), wrong.name() + ": " + cause);
      assertTrue(cause.contains(wrong.section()), wrong.name() + ": " + cause);
      assertEquals(2, link.health().attempts(), wrong.name());
      assertEquals(Optional.empty(), link.pollCommand(), wrong.name());
    }
    return null;
  }
}
