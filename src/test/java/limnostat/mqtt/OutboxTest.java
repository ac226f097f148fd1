package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limnostat.mqtt.Message.Worth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OutboxTest {
  private final Outbox outbox =
      new Outbox(new Outbox.Bounds(3, 4, 100, 20, 10), Keeper.NONE, () -> {});

  @Test
  void onlyTheNewestValueOfATopicIsSent() {
    outbox.retain("a", bytes("1"));
    outbox.retain("b", bytes("2"));
    outbox.retain("a", bytes("3"));
    assertEquals(List.of("a=3", "b=2"), texts(takeAll()));
  }

  @Test
  void aTopicHasOneMessageUnderWayAndTheNewerOneFollows() {
    outbox.retain("a", bytes("1"));
    Outbox.Entry first = outbox.take().orElseThrow();
    outbox.retain("a", bytes("2"));
    outbox.retain("a", bytes("3"));
    assertEquals(Optional.empty(), outbox.take());
    outbox.acknowledged(first);
    assertEquals("a=3", text(outbox.take().orElseThrow()));
  }

  @Test
  void everyRetainedTopicIsSentAgainAfterAConnectInTheOrderOfItsFirstValue() {
    outbox.retain("a", bytes("1"));
    outbox.retain("b", bytes("2"));
    takeAll().forEach(outbox::acknowledged);
    outbox.retain("b", bytes("3"));
    outbox.retain("a", bytes("4"));
    outbox.connected();
    assertEquals(List.of("a=4", "b=3"), texts(takeAll()));
  }

  @Test
  void aClearedTopicIsForgottenOnlyOnceTheBrokerHasIt() {
    outbox.retain("a", bytes("1"));
    takeAll().forEach(outbox::acknowledged);
    outbox.retain("a", bytes(""));
    assertEquals(List.of("a="), texts(takeAll()));
    outbox.connected();
    List<Outbox.Entry> again = takeAll();
    assertEquals(List.of("a="), texts(again));
    again.forEach(outbox::acknowledged);
    outbox.connected();
    assertEquals(List.of(), texts(takeAll()));
  }

  @Test
  void aTopicSetAgainWhileItsRemovalIsUnderWayStays() {
    outbox.retain("a", bytes(""));
    List<Outbox.Entry> removal = takeAll();
    outbox.retain("a", bytes("1"));
    removal.forEach(outbox::acknowledged);
    takeAll().forEach(outbox::acknowledged);
    outbox.connected();
    assertEquals(List.of("a=1"), texts(takeAll()));
  }

  @Test
  void eventsAreSentInOrderAndThoseNotAcknowledgedAgainInOrder() {
    outbox.send("e", Worth.RECORD, bytes("1"));
    outbox.send("e", Worth.RECORD, bytes("2"));
    outbox.send("e", Worth.RECORD, bytes("3"));
    List<Outbox.Entry> sent = takeAll();
    assertEquals(List.of("e=1", "e=2", "e=3"), texts(sent));
    outbox.acknowledged(sent.get(1));
    outbox.connected();
    assertEquals(List.of("e=1", "e=3"), texts(takeAll()));
    assertEquals(2, outbox.waiting());
  }

  @Test
  void retainedTopicsGoBeforeEvents() {
    outbox.send("e", Worth.RECORD, bytes("1"));
    outbox.retain("a", bytes("2"));
    assertEquals(List.of("a=2", "e=1"), texts(takeAll()));
  }

  @Test
  void theOldestEventsGiveWayByCount() {
    for (int i = 1; i <= 6; i++) {
      outbox.send("e", Worth.RECORD, bytes("" + i));
    }
    assertEquals(List.of("e=3", "e=4", "e=5", "e=6"), texts(takeAll()));
    assertEquals(2, outbox.droppedEvents());
  }

  @Test
  void theOldestEventsGiveWayByBytes() {
    outbox.send("e", Worth.RECORD, bytes("1234567"));
    outbox.send("e", Worth.RECORD, bytes("2234567"));
    outbox.send("e", Worth.RECORD, bytes("3234567"));
    assertEquals(List.of("e=2234567", "e=3234567"), texts(takeAll()));
    assertEquals(1, outbox.droppedEvents());
  }

  @Test
  void acknowledgedBytesAreFreeAgain() {
    for (int i = 0; i < 10; i++) {
      outbox.send("e", Worth.RECORD, bytes("1234567890"));
      outbox.retain("a", bytes("1234567890"));
      takeAll().forEach(outbox::acknowledged);
    }
    assertEquals(0, outbox.droppedEvents());
    assertEquals(0, outbox.refusedStates());
    assertEquals(0, outbox.waiting());
  }

  @Test
  void aLateAcknowledgementOfADroppedEventChangesNothing() {
    outbox.send("e", Worth.RECORD, bytes("0"));
    Outbox.Entry dropped = outbox.take().orElseThrow();
    for (int i = 1; i <= 4; i++) {
      outbox.send("e", Worth.RECORD, bytes("" + i));
    }
    outbox.acknowledged(dropped);
    assertEquals(List.of("e=1", "e=2", "e=3", "e=4"), texts(takeAll()));
  }

  @Test
  void tooManyTopicsAndTooManyBytesAreRefusedAndCounted() {
    outbox.retain("a", bytes("1234567890"));
    outbox.retain("b", bytes("1234567890"));
    outbox.retain("c", bytes("1"));
    assertEquals(1, outbox.refusedStates(), "by bytes");
    outbox.retain("b", bytes("1"));
    outbox.retain("c", bytes("1"));
    assertEquals(1, outbox.refusedStates(), "there is room again");
    outbox.retain("d", bytes("1"));
    assertEquals(2, outbox.refusedStates(), "by count");
    outbox.retain("a", bytes("12345678901"));
    assertEquals(3, outbox.refusedStates(), "by length");
    assertEquals(List.of("a=1234567890", "b=1", "c=1"), texts(takeAll()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "a/#", "a/+", "ü", "a b", "a\0"})
  void aTopicThatTheLibraryWouldThrowOnIsNeverTaken(String topic) {
    outbox.retain(topic, bytes("1"));
    outbox.send(topic, Worth.RECORD, bytes("1"));
    assertEquals(1, outbox.refusedStates());
    assertEquals(1, outbox.droppedEvents());
    assertEquals(Optional.empty(), outbox.take());
  }

  @Test
  void anEventLargerThanTheRingDoesNotEmptyIt() {
    Outbox small = new Outbox(new Outbox.Bounds(1, 4, 100, 5, 10), Keeper.NONE, () -> {});
    small.send("e", Worth.RECORD, bytes("1"));
    small.send("e", Worth.RECORD, bytes("123456"));
    assertEquals(1, small.droppedEvents());
    assertTrue(small.take().isPresent());
  }

  private List<Outbox.Entry> takeAll() {
    List<Outbox.Entry> all = new ArrayList<>();
    for (Optional<Outbox.Entry> e = outbox.take(); e.isPresent(); e = outbox.take()) {
      all.add(e.get());
    }
    return all;
  }

  private static List<String> texts(List<Outbox.Entry> entries) {
    return entries.stream().map(OutboxTest::text).toList();
  }

  private static String text(Outbox.Entry e) {
    return e.topic() + "=" + new String(e.payload(), UTF_8);
  }

  private static byte[] bytes(String text) {
    return text.getBytes(UTF_8);
  }
}
