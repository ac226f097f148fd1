package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.tinylog.Logger;

@Timeout(60)
class FrozenBrokerIT {
  private static final int SECONDS = 15;
  private static final int CALLS_PER_S = 15;

  @Test
  void callsGoOnWhileTheBrokerIsFrozenAndAllOfItArrivesAfterwards() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Observer observer = new Observer(broker);
        Link link = Links.connected(broker.port())) {
      Tool.freeze(broker);
      long longestNanos = 0;
      int calls = SECONDS * CALLS_PER_S;
      for (int i = 0; i < calls; i++) {
        long startNanos = System.nanoTime();
        link.retain("state", large(i));
        link.event("event", Links.bytes("" + i));
        link.pollCommand();
        longestNanos = Math.max(longestNanos, System.nanoTime() - startNanos);
        Thread.sleep(1000 / CALLS_PER_S);
      }
      assertTrue(link.health().waiting() >= calls, "the broker was frozen all the time");
      Tool.thaw(broker);
      Links.await("all acknowledged", () -> link.health().waiting() == 0);
      observer.await("event 0 " + (calls - 1));
      assertEquals(
          IntStream.range(0, calls).mapToObj(i -> "" + i).toList(), observer.payloads("event"));
      Links.await("newest state", () -> observer.seen().contains("state 0 " + text(calls - 1)));
      // Not asserted, as the machine may be busy: for the build's log.
      Logger.info("longest call while frozen: {} us", longestNanos / 1000);
    }
  }

  @Test
  void aBrokerThatFreezesForGoodIsLeftAndNothingIsLost() throws Exception {
    LinkTimes times =
        new LinkTimes(
            Duration.ofSeconds(1),
            Duration.ofSeconds(20),
            Duration.ofSeconds(2),
            Duration.ofMillis(200),
            Duration.ofMillis(200),
            Duration.ofMinutes(5),
            Duration.ofSeconds(1));
    try (LocalBroker broker = LocalBroker.start();
        Link link = Links.started(Links.plain(broker.port()), Optional.empty(), times)) {
      Links.await("connected", () -> link.health().connected());
      Tool.freeze(broker);
      fill(link);
      Links.await("several attempts after it", () -> link.health().attempts() >= 3);
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("frozen"), cause);
      Tool.thaw(broker);
      Links.await("connected", () -> link.health().connected());
      Links.await("all acknowledged", () -> link.health().waiting() == 0);
    }
  }

  /** Far more than may be under way at once. */
  static void fill(Link link) {
    for (int i = 0; i < 4; i++) {
      link.retain("large" + i, new byte[250_000]);
      link.event("large", new byte[250_000]);
    }
  }

  private static String text(int i) {
    return i + "x".repeat(2000);
  }

  private static byte[] large(int i) {
    return Links.bytes(text(i));
  }
}
