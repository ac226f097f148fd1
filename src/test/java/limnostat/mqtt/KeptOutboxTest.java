package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import limnostat.mqtt.Message.Worth;
import org.junit.jupiter.api.Test;

/** The outbox with something that keeps it beyond the process. */
class KeptOutboxTest {
  private final MemoryKeeper keeper = new MemoryKeeper();
  private final Outbox outbox = outbox();

  private Outbox outbox() {
    return new Outbox(new Outbox.Bounds(3, 8, 1000, 1000, 100), keeper, () -> {});
  }

  private void send(Worth worth, String... texts) {
    for (String text : texts) {
      outbox.send("e", worth, text.getBytes(UTF_8));
    }
  }

  @Test
  void aRecordIsSentOnceItIsKeptAndNothingGoesBeforeIt() {
    send(Worth.RECORD, "r1");
    send(Worth.NOTE, "n2");
    assertEquals(List.of(), takeAll(outbox));
    keeper.commit();
    assertEquals(List.of("r1", "n2"), takeAll(outbox));
  }

  /** To be told once; that it is full to the brim is nothing to tell. */
  @Test
  void noRoomIsKnownHoweverItIsMade() {
    for (Worth worth : Worth.values()) {
      Outbox box =
          new Outbox(new Outbox.Bounds(3, 8, 1000, 1000, 100), new MemoryKeeper(), () -> {});
      for (int i = 0; i < 8; i++) {
        box.send("e", worth, new byte[1]);
      }
      assertFalse(box.overflowed(), worth.name());
      box.send("e", worth, new byte[1]);
      assertTrue(box.overflowed(), worth.name());
    }
  }

  @Test
  void aNoteDoesNotWait() {
    send(Worth.NOTE, "n1");
    assertEquals(List.of("n1"), takeAll(outbox));
  }

  @Test
  void whatCannotBeKeptIsSentAllTheSame() {
    keeper.failing = true;
    send(Worth.RECORD, "r1");
    assertEquals(List.of("r1"), takeAll(outbox));
  }

  @Test
  void onlyAnAcknowledgementRemovesWhatIsKept() {
    send(Worth.RECORD, "r1", "r2");
    keeper.commit();
    Outbox.Entry first = outbox.take().orElseThrow();
    assertEquals(List.of(1L, 2L), keeper.numbers());
    outbox.connected();
    assertEquals(List.of(1L, 2L), keeper.numbers());
    outbox.acknowledged(first);
    assertEquals(List.of(2L), keeper.numbers());
  }

  @Test
  void whatAnEarlierProcessLeftGoesFirstAndNumbersGoOn() {
    send(Worth.RECORD, "r1");
    send(Worth.READING, "v2");
    keeper.commit();
    Outbox next = outbox();
    assertEquals(2, next.waiting());
    next.send("e", Worth.RECORD, "r3".getBytes(UTF_8));
    assertEquals(Optional.empty(), next.take(), "not read yet");
    keeper.commit();
    assertEquals(List.of("r1", "v2", "r3"), takeAll(next));
    assertEquals(List.of(1L, 2L, 3L), keeper.numbers());
    assertEquals(3, next.waiting());
  }

  @Test
  void everySecondReadingGivesWayAndOlderOnesStandEverSparser() {
    for (int i = 1; i <= 60; i++) {
      send(Worth.READING, "" + i);
    }
    keeper.commit();
    List<Integer> left = takeAll(outbox).stream().map(Integer::parseInt).toList();
    assertTrue(left.size() >= 4 && left.size() <= 8, left.toString());
    assertEquals(60, left.get(left.size() - 1), "the newest is there");
    for (int i = 2; i < left.size(); i++) {
      assertTrue(
          left.get(i) - left.get(i - 1) <= left.get(i - 1) - left.get(i - 2), left.toString());
    }
    assertEquals(60 - left.size(), outbox.thinnedReadings());
    assertEquals(0, outbox.droppedEvents());
    assertEquals(left.size(), keeper.kept.size(), "the keeper's are the same");
  }

  @Test
  void readingsGoBeforeNotesAndNotesBeforeRecords() {
    send(Worth.RECORD, "r1", "r2", "r3");
    send(Worth.NOTE, "n4", "n5", "n6");
    send(Worth.READING, "v7", "v8");
    send(Worth.READING, "v9");
    send(Worth.RECORD, "r10", "r11");
    keeper.commit();
    assertEquals(
        List.of("r1", "r2", "r3", "n4", "n5", "n6", "r10", "r11"), peekAll(), "v gave way");
    send(Worth.READING, "v12");
    send(Worth.NOTE, "n13");
    send(Worth.RECORD, "r14");
    keeper.commit();
    assertEquals(List.of("r1", "r2", "r3", "n6", "r10", "r11", "n13", "r14"), peekAll());
    assertEquals(2, outbox.droppedEvents());
    assertEquals(4, outbox.thinnedReadings());
  }

  @Test
  void recordsBeyondTheBoundAreWithTheKeeperOnlyAndComeBackInOrder() {
    List<String> all = IntStream.range(0, 50).mapToObj(i -> "r" + i).toList();
    send(Worth.RECORD, all.toArray(String[]::new));
    send(Worth.NOTE, "no room");
    keeper.commit();
    assertEquals(50, outbox.waiting());
    List<String> sent = new ArrayList<>();
    for (int i = 0; i < 100 && outbox.waiting() > 0; i++) {
      for (Outbox.Entry e : takeEntries(outbox)) {
        sent.add(new String(e.payload(), UTF_8));
        outbox.acknowledged(e);
      }
      keeper.commit();
    }
    assertEquals(all, sent);
    assertEquals(1, outbox.droppedEvents());
    assertEquals(List.of(), keeper.numbers());
  }

  /** Years of them: the oldest go, one for each that comes, and the newest stay in order. */
  @Test
  void recordsHaveABoundOfTheirOwnOnTheDisk() {
    Outbox box = new Outbox(new Outbox.Bounds(3, 8, 30, 1000, 100), keeper, () -> {});
    for (int i = 0; i < 200; i++) {
      box.send("e", Worth.RECORD, ("r" + i).getBytes(UTF_8));
      keeper.commit();
      assertTrue(box.waiting() <= 30 + 1, "waiting " + box.waiting());
      assertTrue(keeper.kept.size() <= 30 + 1, "kept " + keeper.kept.size());
    }
    assertTrue(box.overflowed());
    assertEquals(200 - box.waiting(), box.droppedRecords());
    assertEquals(box.droppedRecords(), box.droppedEvents());
    List<String> sent = new ArrayList<>();
    for (int i = 0; i < 100 && box.waiting() > 0; i++) {
      for (Outbox.Entry e : takeEntries(box)) {
        sent.add(new String(e.payload(), UTF_8));
        box.acknowledged(e);
      }
      keeper.commit();
    }
    assertEquals(
        IntStream.range(200 - sent.size(), 200).mapToObj(i -> "r" + i).toList(),
        sent,
        "the newest");
    assertTrue(sent.size() >= 29, sent.size() + " of 30");
    assertEquals(List.of(), keeper.numbers());
  }

  /** A process that begins while the broker is away thins out what an earlier one left. */
  @Test
  void readingsOfAnEarlierProcessGiveWayToo() {
    for (int i = 1; i <= 8; i++) {
      send(Worth.READING, "" + i);
    }
    keeper.commit();
    Outbox next = outbox();
    for (int i = 9; i <= 40; i++) {
      next.send("e", Worth.READING, ("" + i).getBytes(UTF_8));
      keeper.commit();
    }
    List<Integer> left = takeAll(next).stream().map(Integer::parseInt).toList();
    assertEquals(40, left.get(left.size() - 1), "the newest is there: " + left);
    assertTrue(left.size() >= 4 && left.size() <= 8, left.toString());
  }

  /** Random sends, acknowledgements, commits, broken connections and kills; seeds are fixed. */
  @Test
  void everyRecordArrivesInOrderWhateverHappens() {
    for (long seed = 0; seed < 300; seed++) {
      Random random = new Random(seed);
      MemoryKeeper memory = new MemoryKeeper();
      Outbox box = new Outbox(new Outbox.Bounds(3, 8, 1000, 1000, 100), memory, () -> {});
      List<String> expected = new ArrayList<>();
      List<String> arrived = new ArrayList<>();
      List<Outbox.Entry> open = new ArrayList<>();
      for (int step = 0; step < 400; step++) {
        switch (random.nextInt(9)) {
          case 0, 1, 2 -> {
            boolean record = random.nextBoolean();
            String text = (record ? "r" : "x") + step;
            Worth other = random.nextBoolean() ? Worth.NOTE : Worth.READING;
            box.send("e", record ? Worth.RECORD : other, text.getBytes(UTF_8));
            if (record) {
              expected.add(text);
            }
          }
          case 3, 4 -> memory.commit();
          case 5 -> box.take().ifPresent(open::add);
          case 6 -> {
            if (!open.isEmpty()) {
              Outbox.Entry e = open.remove(0);
              arrived.add(new String(e.payload(), UTF_8));
              box.acknowledged(e);
            }
          }
          case 7 -> {
            open.clear();
            box.connected();
          }
          default -> {
            if (random.nextInt(10) == 0) {
              memory.commit(); // what was never kept is not promised
              open.clear();
              box = new Outbox(new Outbox.Bounds(3, 8, 1000, 1000, 100), memory, () -> {});
            }
          }
        }
      }
      box.connected();
      for (int i = 0; i < 1000 && box.waiting() > 0; i++) {
        for (Outbox.Entry e : takeEntries(box)) {
          arrived.add(new String(e.payload(), UTF_8));
          box.acknowledged(e);
        }
        memory.commit();
      }
      assertEquals(
          expected,
          arrived.stream().filter(t -> t.startsWith("r")).distinct().toList(),
          "seed " + seed);
      assertEquals(0, box.waiting(), "seed " + seed);
    }
  }

  private static List<Outbox.Entry> takeEntries(Outbox outbox) {
    List<Outbox.Entry> all = new ArrayList<>();
    for (Optional<Outbox.Entry> e = outbox.take(); e.isPresent(); e = outbox.take()) {
      all.add(e.get());
    }
    return all;
  }

  private static List<String> takeAll(Outbox outbox) {
    return takeEntries(outbox).stream().map(e -> new String(e.payload(), UTF_8)).toList();
  }

  /** What would be sent, which then is not under way. */
  private List<String> peekAll() {
    List<String> all = takeAll(outbox);
    outbox.connected();
    return all;
  }
}
