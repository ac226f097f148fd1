package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
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

  private int drain() {
    int n = 0;
    while (inbox.poll().isPresent()) {
      n++;
    }
    return n;
  }
}
