package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class MisbehavingBrokerIT {
  private static final LinkTimes SHORT =
      new LinkTimes(
          Duration.ofMillis(500),
          Duration.ofSeconds(20),
          Duration.ofMillis(500),
          Duration.ofMillis(100),
          Duration.ofMillis(100),
          Duration.ofMinutes(5),
          Duration.ofMillis(300));

  private static void refuseSubscriptions(Caller caller) throws IOException {
    while (true) {
      Caller.Packet packet = caller.next();
      if (packet.type() == Caller.SUBSCRIBE) {
        caller.send(Frames.packet(0x90, 0, packet.id(), 0x80));
      } else {
        caller.answer(packet);
      }
    }
  }

  private static void acknowledgeNothing(Caller caller) throws IOException {
    caller.serveThrough(Caller.SUBSCRIBE);
    caller.listenOnly();
  }

  private static Link started(int port) {
    return Links.started(Links.plain(port), Optional.empty(), SHORT);
  }

  @Test
  void attemptsAtASilentBrokerEndAndLeaveNoThread() throws Exception {
    try (HostileBroker broker = new HostileBroker(Caller::listenOnly)) {
      Link link = started(broker.port());
      // the next attempt has just begun, which is when the library can be left with a thread
      Links.await("four attempts", () -> broker.accepted() >= 4);
      List<String> threads = linkThreads();
      assertTrue(threads.size() <= 5, "ours and those of one client at most: " + threads);
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("no answer to a connect"), cause);
      assertFalse(link.health().connected());
      link.close();
      Links.await("no thread left", () -> linkThreads().isEmpty());
    }
  }

  @Test
  void withoutTheRightToReadCommandsStateStillGoesOut() throws Exception {
    try (HostileBroker broker = new HostileBroker(MisbehavingBrokerIT::refuseSubscriptions);
        Link link = started(broker.port())) {
      link.retain("state", Links.bytes("x"));
      Links.await("connected", () -> link.health().connected());
      Links.await("all acknowledged", () -> link.health().waiting() == 0);
      assertEquals(1, link.health().attempts());
    }
  }

  @Test
  void aBrokerThatAcknowledgesNothingIsLeftAndNothingIsLost() throws Exception {
    try (HostileBroker broker = new HostileBroker(MisbehavingBrokerIT::acknowledgeNothing);
        Link link = started(broker.port())) {
      link.event("event", Links.bytes("x"));
      Links.await("three attempts", () -> link.health().attempts() >= 3);
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("no acknowledgement"), cause);
      assertEquals(2, link.health().waiting(), "availability and the event");
    }
  }

  @Test
  void closeWithoutAConnectionIsPrompt() throws Exception {
    int nobody = LocalBroker.freePort();
    try (HostileBroker silent = new HostileBroker(Caller::listenOnly)) {
      Link connecting = Links.started(silent.port());
      Links.await("connecting", () -> silent.accepted() >= 1);
      Link pausing = Links.started(nobody);
      Links.await("pausing", () -> pausing.health().lastCause().isPresent());
      Link never = new Link(Links.plain(nobody), Links.SITE, Optional.empty());
      assertTimeout(
          Duration.ofSeconds(4),
          () -> {
            connecting.close();
            pausing.close();
            never.close();
          });
      Links.await("no thread left", () -> linkThreads().isEmpty());
    }
  }

  @Test
  void closeIsBoundedWithAFrozenBroker() throws Exception {
    try (LocalBroker broker = LocalBroker.start()) {
      Link link = Links.connected(broker.port());
      Tool.freeze(broker);
      FrozenBrokerIT.fill(link);
      assertTimeout(Duration.ofSeconds(4), link::close);
      Tool.thaw(broker);
      Links.await("no thread left", () -> linkThreads().isEmpty());
    }
  }

  @Test
  void twoClientsWithOneIdAreNamed() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Link one = Links.started(broker.port());
        Link other = Links.started(broker.port())) {
      Links.await(
          "cause named",
          () ->
              one.health().lastCause().filter(c -> c.contains("another client")).isPresent()
                  || other
                      .health()
                      .lastCause()
                      .filter(c -> c.contains("another client"))
                      .isPresent());
    }
  }

  private static List<String> linkThreads() {
    return Thread.getAllStackTraces().keySet().stream()
        .map(Thread::getName)
        .filter(name -> name.contains("limnostat-" + Links.SITE) || name.equals("mqtt"))
        .toList();
  }
}
