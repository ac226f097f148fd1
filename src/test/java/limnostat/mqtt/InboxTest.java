package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class InboxTest {
  private static final long S = 1_000_000_000L;

  private final Inbox inbox = new Inbox(0);

  @Test
  void aCommandComesOutOnce() {
    inbox.accept(new byte[] {7}, false, 0);
    Inbound.Command command = assertInstanceOf(Inbound.Command.class, inbox.poll().orElseThrow());
    assertEquals(7, command.payload()[0]);
    assertEquals(Optional.empty(), inbox.poll());
    assertEquals(Map.of(), inbox.refused());
  }

  @Test
  void retainedAndLongOnesAreRefusedAndTold() {
    inbox.accept(new byte[1], true, 0);
    inbox.accept(new byte[Inbox.PAYLOAD_BYTES_MAX + 1], false, 0);
    inbox.accept(new byte[Inbox.PAYLOAD_BYTES_MAX], false, 0);
    assertEquals(1, refused(Inbound.Reason.RETAINED).payload().length);
    assertEquals(Inbox.PAYLOAD_BYTES_MAX, refused(Inbound.Reason.TOO_LONG).payload().length);
    assertInstanceOf(Inbound.Command.class, inbox.poll().orElseThrow());
    assertEquals(Map.of(Inbound.Reason.RETAINED, 1L, Inbound.Reason.TOO_LONG, 1L), inbox.refused());
  }

  private Inbound.Command refused(Inbound.Reason reason) {
    Inbound.Refused refused = assertInstanceOf(Inbound.Refused.class, inbox.poll().orElseThrow());
    assertEquals(reason, refused.reason());
    return assertInstanceOf(Inbound.Command.class, refused.what());
  }

  /** Or the answer would name another command's topic. */
  @Test
  void aRefusedOneOfAnotherTopicTellsItsTopic() {
    inbox.accept("homie/5/x/y/set", new byte[1], true, 0);
    Inbound.Refused refused = assertInstanceOf(Inbound.Refused.class, inbox.poll().orElseThrow());
    assertEquals("homie/5/x/y/set", ((Inbound.Other) refused.what()).topic());
  }

  @Test
  void aFloodIsCountedAndOnlyTheBurstComesOut() {
    for (int i = 0; i < 1000; i++) {
      inbox.accept(new byte[1], false, 0);
    }
    assertEquals(Inbox.BURST, drain());
    assertEquals(Map.of(Inbound.Reason.TOO_MANY, 1000L - Inbox.BURST), inbox.refused());
  }

  /** At a pace that each second bears, but no card for months. */
  @Test
  void whatGoesOnForHoursIsLimitedToo() {
    int taken = 0;
    for (int i = 0; i < 4 * 3600 * 4; i++) { // four a second for four hours
      inbox.accept(new byte[1], false, i * S / 4);
      taken += drain();
    }
    assertTrue(Math.abs(taken - 5 * Inbox.COMMANDS_PER_HOUR) <= 2, "taken " + taken);
    inbox.accept(new byte[1], false, 5 * 3600 * S);
    assertEquals(1, drain(), "an hour later as before");
  }

  @Test
  void theQueueIsBoundedWhenNobodyReads() {
    for (int second = 0; second < 100; second++) {
      inbox.accept(new byte[1], false, second * S);
    }
    assertEquals(Map.of(Inbound.Reason.QUEUE_FULL, 100L - Inbox.COMMANDS_MAX), inbox.refused());
    assertEquals(Inbox.COMMANDS_MAX, drain());
  }

  @Test
  void refusalsFillNoMoreThanTheQueue() {
    for (int second = 0; second < 100; second++) {
      inbox.accept(new byte[1], true, second * S);
    }
    assertEquals(Map.of(Inbound.Reason.RETAINED, 100L), inbox.refused());
    assertEquals(Inbox.COMMANDS_MAX, drain());
  }

  private static byte[] by(String id) {
    return ("{\"type\":\"mode\",\"request_id\" : \"" + id + "\"}").getBytes(UTF_8);
  }

  /** Of {@code owner-...}; what comes out of others is thrown away. */
  private int heard() {
    int heard = 0;
    for (Optional<Inbound> in = inbox.poll(); in.isPresent(); in = inbox.poll()) {
      if (in.get() instanceof Inbound.Command command
          && new String(command.payload(), UTF_8).contains("owner-")) {
        heard++;
      }
    }
    return heard;
  }

  /** Without an id, retained, on another topic, by ids that are new each time. */
  @Test
  void whileOneFloodsTheOthersAreHeard() {
    inbox.accept(by("owner-0"), false, 0);
    assertEquals(1, heard());
    Random random = new Random(1);
    int sent = 0;
    int heard = 0;
    for (int s = 1; s < 6 * 3600; s++) {
      for (int i = 0; i < 20; i++) {
        inbox.accept("{}".getBytes(UTF_8), false, s * S);
        inbox.accept("{}".getBytes(UTF_8), true, s * S);
        inbox.accept("homie/5/x/y/set", "1".getBytes(UTF_8), false, s * S);
        inbox.accept(by("f" + random.nextInt(1_000_000) + "-1"), false, s * S);
      }
      if (s % 600 == 0) { // six an hour
        inbox.accept(by("owner-" + s), false, s * S);
        sent++;
      }
      heard += heard();
    }
    assertEquals(sent, heard);
  }

  @Test
  void aTopicThatIsFloodedSilencesNoOtherTopic() {
    for (int i = 0; i < 10_000; i++) {
      inbox.accept("homie/5/x/target/set", new byte[1], false, i * S / 100);
    }
    drain();
    inbox.accept("homie/5/x/mode/set", new byte[1], false, 100 * S);
    assertEquals("homie/5/x/mode/set", ((Inbound.Other) inbox.poll().orElseThrow()).topic());
  }

  /** While no scan reads: the greediest one's latest makes room. */
  @Test
  void aFullQueueHasRoomForOneWhoIsNotTheReason() {
    for (int second = 0; second < 100; second++) {
      inbox.accept(by("flood-" + second), false, second * S);
    }
    for (int i = 0; i < 3; i++) {
      inbox.accept(by("owner-" + i), false, 100 * S);
    }
    assertEquals(3, heard());
    assertEquals(Map.of(Inbound.Reason.QUEUE_FULL, 100L - Inbox.COMMANDS_MAX + 3), inbox.refused());
  }

  /** Of what the card has to bear in an hour, however many flood. */
  @Test
  void allTogetherAreLimitedToo() {
    int taken = 0;
    int hours = 10;
    for (int s = 0; s < hours * 3600; s++) {
      for (int sender = 0; sender < 40; sender++) {
        inbox.accept(by("s" + sender + "-" + s), false, s * S);
      }
      taken += drain();
    }
    int reserved = (Inbox.SENDERS_MAX + 1) * Sender.RESERVED_PER_HOUR;
    int most = (hours + 1) * (Inbox.COMMANDS_PER_HOUR + reserved);
    assertTrue(taken <= most, taken + " taken, at most " + most);
    assertTrue(most / (hours + 1) <= 1100, "an hour");
  }

  @Test
  void aSenderIsToldByWhatStandsBeforeTheFirstSeparatorOfItsIds() {
    assertEquals("id owner", Sender.of(by("owner-17")));
    assertEquals("id hub", Sender.of(by("hub:9/x")));
    for (String none : List.of("17", "owner", "-1", "\u00e9-1", "a".repeat(17) + "-1")) {
      assertEquals(Sender.WITHOUT_ID, Sender.of(by(none)), none);
    }
    assertEquals(Sender.WITHOUT_ID, Sender.of("{}".getBytes(UTF_8)));
    assertEquals(Sender.WITHOUT_ID, Sender.of(new byte[] {-1, 0, '"'}));
  }

  private int drain() {
    int n = 0;
    while (inbox.poll().isPresent()) {
      n++;
    }
    return n;
  }
}
