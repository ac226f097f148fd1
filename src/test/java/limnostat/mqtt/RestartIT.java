package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class RestartIT {
  private static final List<String> OPEN = List.of("allow_anonymous true");

  @Test
  void stateIsPublishedAgainToABrokerThatHasForgottenAll() throws Exception {
    LocalBroker first = LocalBroker.start();
    try (Link link = Links.connected(first.port())) {
      link.retain("state", Links.bytes("old"));
      link.retain("info", Links.bytes("fixed"));
      link.retain("gone", Links.bytes("x"));
      link.retainAtRoot("elsewhere/x", Links.bytes("discovery"));
      link.clear("gone");
      Links.await("all acknowledged", () -> link.health().waiting() == 0);
      first.close();
      Links.await("loss noticed", () -> !link.health().connected());
      link.retain("state", Links.bytes("newer"));
      link.retain("state", Links.bytes("newest"));
      try (LocalBroker second = LocalBroker.start(first.port(), OPEN)) {
        Links.await("connected", () -> link.health().connected());
        Links.await("all acknowledged", () -> link.health().waiting() == 0);
        try (Observer observer = new Observer(second)) {
          observer.await("availability 1 online");
          observer.await("state 1 newest");
          observer.await("info 1 fixed");
          assertEquals(3, observer.seen().size(), observer.seen().toString());
        }
      }
    } finally {
      first.close();
    }
  }

  @Test
  void eventsArriveInOrderAcrossARestart() throws Exception {
    List<String> seen = new ArrayList<>();
    LocalBroker first = LocalBroker.start();
    try (Gate gate = new Gate(first.port());
        Link link = Links.connected(gate.port())) {
      try (Observer observer = new Observer(first)) {
        events(link, 0, 50);
        observer.await("event 0 49");
        seen.addAll(observer.payloads("event"));
      }
      gate.cut();
      first.close();
      Links.await("loss noticed", () -> !link.health().connected());
      events(link, 50, 250);
      assertTrue(link.health().waiting() >= 200);
      try (LocalBroker second = LocalBroker.start(first.port(), OPEN);
          Observer observer = new Observer(second)) {
        gate.mend();
        observer.await("event 0 249");
        seen.addAll(observer.payloads("event"));
      }
      // what the first broker acknowledged too late comes twice
      assertEquals(
          IntStream.range(0, 250).mapToObj(i -> "" + i).toList(),
          seen.stream().distinct().toList());
      assertEquals(0, link.health().droppedEvents());
    } finally {
      first.close();
    }
  }

  @Test
  void aBrokerThatComesLateIsFound() throws Exception {
    int port = LocalBroker.freePort();
    try (Link link = Links.started(port)) {
      Links.await("two attempts", () -> link.health().attempts() >= 2);
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("127.0.0.1:" + port) && cause.contains("running?"), cause);
      link.event("event", Links.bytes("early"));
      link.retain("state", Links.bytes("early"));
      try (LocalBroker broker = LocalBroker.start(port, OPEN)) {
        Links.await("connected", () -> link.health().connected());
        Links.await("all acknowledged", () -> link.health().waiting() == 0);
        try (Observer observer = new Observer(broker)) {
          observer.await("state 1 early");
        }
      }
    }
  }

  private static void events(Link link, int from, int to) {
    for (int i = from; i < to; i++) {
      link.event("event", Links.bytes("" + i));
    }
  }
}
