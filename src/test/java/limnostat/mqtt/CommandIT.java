package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class CommandIT {
  @Test
  void aCommandIsDelivered() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Link link = Links.connected(broker.port())) {
      Tool.command(broker, "{\"type\":\"x\"}");
      Inbound.Command command = assertInstanceOf(Inbound.Command.class, next(link));
      assertEquals("{\"type\":\"x\"}", new String(command.payload(), UTF_8));
    }
  }

  @Test
  void aRetainedCommandIsRefusedWheneverItComes() throws Exception {
    try (LocalBroker broker = LocalBroker.start()) {
      Tool.command(broker, "old", "-r");
      try (Link link = Links.connected(broker.port())) {
        assertRefused(Inbound.Reason.RETAINED, "old", next(link));
        assertEquals(Optional.empty(), link.pollCommand());
        assertEquals(1, link.health().refusedCommands().get(Inbound.Reason.RETAINED));
      }
    }
  }

  @Test
  void aCommandThatIsTooLongIsRefusedAndTheNextOneTaken() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Link link = Links.connected(broker.port())) {
      Tool.command(broker, "x".repeat(Inbox.PAYLOAD_BYTES_MAX + 1));
      assertRefused(Inbound.Reason.TOO_LONG, "x".repeat(Inbox.PAYLOAD_BYTES_MAX), next(link));
      Tool.command(broker, "x".repeat(Inbox.PAYLOAD_BYTES_MAX));
      assertInstanceOf(Inbound.Command.class, next(link));
    }
  }

  @Test
  void aFloodIsCountedToTheLastMessageAndTheLinkStaysUp() throws Exception {
    int flood = 20_000;
    // without the second line the broker itself would drop some
    try (LocalBroker broker =
            LocalBroker.start(
                LocalBroker.freePort(), List.of("allow_anonymous true", "max_queued_messages 0"));
        Observer observer = new Observer(broker, "-T", Links.TOPIC + "command");
        Link link = Links.connected(broker.port())) {
      Tool.feed(
          "{}\n".repeat(flood),
          "mosquitto_pub",
          "-h",
          "127.0.0.1",
          "-p",
          "" + broker.port(),
          "-q",
          "1",
          "-t",
          Links.TOPIC + "command",
          "-l");
      link.event("event", Links.bytes("after"));
      observer.await("event 0 after");
      Links.await("all counted", () -> refused(link) + Inbox.COMMANDS_MAX >= flood);
      int taken = 0;
      while (link.pollCommand().isPresent()) {
        taken++;
      }
      assertEquals(flood, refused(link) + taken);
      assertTrue(taken >= Inbox.BURST && taken <= Inbox.COMMANDS_MAX, "taken " + taken);
      assertTrue(link.health().connected());
      assertEquals(1, link.health().attempts());
    }
  }

  private static void assertRefused(Inbound.Reason reason, String beginning, Inbound next) {
    Inbound.Refused refused = assertInstanceOf(Inbound.Refused.class, next);
    assertEquals(reason, refused.reason());
    assertEquals(beginning, new String(((Inbound.Command) refused.what()).payload(), UTF_8));
  }

  /** More than the library may take into memory, but no more than its sender needs to be told. */
  @Test
  void oneOfMegabytesIsRefusedAsTooLongAndTheLinkStaysUp() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Link link = Links.connected(broker.port())) {
      Tool.command(broker, "x".repeat(20 << 20));
      assertRefused(Inbound.Reason.TOO_LONG, "x".repeat(Inbox.PAYLOAD_BYTES_MAX), next(link));
      Tool.command(broker, "after");
      assertInstanceOf(Inbound.Command.class, next(link));
      assertEquals(1, link.health().attempts());
    }
  }

  private static long refused(Link link) {
    return link.health().refusedCommands().values().stream().mapToLong(n -> n).sum();
  }

  private static Inbound next(Link link) throws InterruptedException {
    Inbound[] next = new Inbound[1];
    Links.await(
        "a command",
        () -> {
          next[0] = link.pollCommand().orElse(null);
          return next[0] != null;
        });
    return next[0];
  }
}
