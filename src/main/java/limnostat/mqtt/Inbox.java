package limnostat.mqtt;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Iterator;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * The queue of commands between the client library's thread and the scan thread. Its lock is held
 * for a few instructions only. While one sender floods the queue, the others are still heard. Each
 * sender has a budget, and room in the queue is taken from the sender that uses most of it.
 */
final class Inbox {
  static final int PAYLOAD_BYTES_MAX = 4096;
  static final int COMMANDS_MAX = 32;

  /** A person or a dashboard sends a command only occasionally; engineering judgement. */
  static final int COMMANDS_PER_S = 5;

  static final int BURST = 10;

  /**
   * Each command permanently adds a line to the log and the ledger: about 5 MB a day at this rate,
   * and about 150 MB a day at {@link #COMMANDS_PER_S}; engineering judgement. The limit applies to
   * each sender, and to all senders together apart from what is reserved for each.
   */
  static final int COMMANDS_PER_HOUR = 600;

  /**
   * Number of senders that are distinguished. Further ones share a budget. Engineering judgement.
   */
  static final int SENDERS_MAX = 24;

  /** A sender that has been silent for this long gives up its place to another. */
  private static final long SILENT_NANOS = TimeUnit.DAYS.toNanos(1);

  private record Waiting(Sender sender, Inbound in) {}

  private final Deque<Waiting> waiting = new ArrayDeque<>();
  private final Map<Inbound.Reason, Long> refused = new EnumMap<>(Inbound.Reason.class);
  private final Map<String, Sender> senders = new HashMap<>();
  private final Sender strangers;
  private final TokenBucket hour;

  Inbox(long nowNanos) {
    strangers = new Sender(nowNanos);
    hour = new TokenBucket(COMMANDS_PER_HOUR / 3600.0, COMMANDS_PER_HOUR, nowNanos);
    // These two always keep their place.
    senders.put(Sender.WITHOUT_ID, new Sender(nowNanos));
    senders.put(Sender.RETAINED, new Sender(nowNanos));
  }

  void accept(byte[] payload, boolean retained, long nowNanos) {
    byte[] beginning = beginning(payload);
    String sender = retained ? Sender.RETAINED : Sender.of(beginning);
    accept(new Inbound.Command(beginning), sender, payload.length, retained, nowNanos);
  }

  /** The same, for a topic other than the command topic. */
  void accept(String topic, byte[] payload, boolean retained, long nowNanos) {
    String sender = retained ? Sender.RETAINED : "topic " + topic;
    accept(
        new Inbound.Other(topic, beginning(payload)), sender, payload.length, retained, nowNanos);
  }

  private synchronized void accept(
      Inbound in, String name, int bytes, boolean retained, long nowNanos) {
    Sender sender = sender(name, nowNanos);
    if (!sender.may(hour, nowNanos)) {
      count(Inbound.Reason.TOO_MANY);
    } else if (retained) {
      refuse(Inbound.Reason.RETAINED, in, sender);
    } else if (bytes > PAYLOAD_BYTES_MAX) {
      refuse(Inbound.Reason.TOO_LONG, in, sender);
    } else if (!queued(in, sender)) {
      count(Inbound.Reason.QUEUE_FULL);
    }
  }

  private Sender sender(String name, long nowNanos) {
    Sender known = senders.get(name);
    if (known != null) {
      return known;
    }
    if (senders.size() >= SENDERS_MAX) {
      senders
          .entrySet()
          .removeIf(
              e ->
                  e.getKey().startsWith("id ")
                      && nowNanos - e.getValue().heardNanos() > SILENT_NANOS);
      if (senders.size() >= SENDERS_MAX) {
        return strangers;
      }
    }
    Sender one = new Sender(nowNanos);
    senders.put(name, one);
    return one;
  }

  synchronized Optional<Inbound> poll() {
    Waiting next = waiting.poll();
    if (next == null) {
      return Optional.empty();
    }
    next.sender.left();
    return Optional.of(next.in);
  }

  /** Number of commands dropped so far, by reason. A reason that never occurred is absent. */
  synchronized Map<Inbound.Reason, Long> refused() {
    return Collections.unmodifiableMap(new EnumMap<>(refused));
  }

  private void refuse(Inbound.Reason reason, Inbound what, Sender sender) {
    count(reason);
    queued(new Inbound.Refused(reason, what), sender);
  }

  /** False if there is no room for another command from this sender. */
  private boolean queued(Inbound in, Sender sender) {
    if (waiting.size() >= COMMANDS_MAX) {
      Sender greediest = sender;
      for (Waiting w : waiting) {
        greediest = w.sender.waiting() > greediest.waiting() ? w.sender : greediest;
      }
      if (greediest == sender) {
        return false;
      }
      dropNewest(greediest);
    }
    waiting.add(new Waiting(sender, in));
    sender.queued();
    return true;
  }

  private void dropNewest(Sender sender) {
    for (Iterator<Waiting> latestFirst = waiting.descendingIterator(); latestFirst.hasNext(); ) {
      if (latestFirst.next().sender == sender) {
        latestFirst.remove();
        sender.left();
        count(Inbound.Reason.QUEUE_FULL);
        return;
      }
    }
  }

  private static byte[] beginning(byte[] payload) {
    return payload.length > PAYLOAD_BYTES_MAX ? Arrays.copyOf(payload, PAYLOAD_BYTES_MAX) : payload;
  }

  private void count(Inbound.Reason reason) {
    refused.merge(reason, 1L, Long::sum);
  }
}
