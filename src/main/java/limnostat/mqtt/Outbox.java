package limnostat.mqtt;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What is to be published. Of a retained topic only the newest value is kept, and kept for good, to
 * be published again after every connect; events are a ring. An entry leaves when the broker has
 * acknowledged it, and not before. The lock is held for a few instructions only, never during I/O.
 */
final class Outbox {

  /** One message; two of equal content are still two. */
  static final class Entry {
    private final String topic;
    private final byte[] payload;
    private final boolean retained;
    private boolean open;

    Entry(String topic, byte[] payload, boolean retained) {
      this.topic = topic;
      this.payload = payload;
      this.retained = retained;
    }

    String topic() {
      return topic;
    }

    byte[] payload() {
      return payload;
    }

    boolean retained() {
      return retained;
    }
  }

  /**
   * @param topicsMax retained topics
   * @param eventsMax events in the ring
   * @param bytesMax payload bytes, of retained topics and of events each
   * @param payloadBytesMax payload bytes of one message
   */
  record Bounds(int topicsMax, int eventsMax, long bytesMax, int payloadBytesMax) {

    /** Room for an evening without a broker, and little against a heap of 48 MB. */
    static final Bounds DEFAULT = new Bounds(512, 300, 1 << 20, 1 << 18);
  }

  /**
   * What a topic may look like. Stricter than the protocol: the library throws on what it does not
   * like, and an entry that can never be sent would stay for ever.
   */
  private static final Pattern TOPIC = Pattern.compile("[A-Za-z0-9_./$-]{1,200}");

  private final Bounds bounds;
  private final Map<String, Entry> newest = new LinkedHashMap<>();
  private final Set<String> unsent = new LinkedHashSet<>();
  private final Set<String> openTopics = new HashSet<>();
  private final Deque<Entry> events = new ArrayDeque<>();
  private long retainedBytes;
  private long eventBytes;
  private long droppedEvents;
  private long refusedStates;

  Outbox(Bounds bounds) {
    this.bounds = bounds;
  }

  /** Sets the value of a retained topic; an empty one removes the topic from the broker. */
  synchronized void retain(String topic, byte[] payload) {
    Entry old = newest.get(topic);
    long bytesAfter = retainedBytes + payload.length - (old == null ? 0 : old.payload.length);
    if (unusable(topic, payload)
        || (old == null && newest.size() >= bounds.topicsMax)
        || bytesAfter > bounds.bytesMax) {
      refusedStates++;
      return;
    }
    newest.put(topic, new Entry(topic, payload, true));
    unsent.add(topic);
    retainedBytes = bytesAfter;
  }

  /** Adds an event; the oldest ones give way. */
  synchronized void event(String topic, byte[] payload) {
    if (unusable(topic, payload) || payload.length > bounds.bytesMax) {
      droppedEvents++;
      return;
    }
    while (events.size() >= bounds.eventsMax || eventBytes + payload.length > bounds.bytesMax) {
      eventBytes -= events.remove().payload.length;
      droppedEvents++;
    }
    events.add(new Entry(topic, payload, false));
    eventBytes += payload.length;
  }

  /** A new connection: nothing is under way, every retained topic is to be sent again. */
  synchronized void connected() {
    openTopics.clear();
    unsent.clear();
    unsent.addAll(newest.keySet());
    events.forEach(e -> e.open = false);
  }

  /**
   * The next entry to be sent, which is then under way: retained topics first, events in order. A
   * topic has one message under way at most, so that a slow broker gets fewer values, not old ones.
   */
  synchronized Optional<Entry> take() {
    Optional<String> topic = unsent.stream().filter(t -> !openTopics.contains(t)).findFirst();
    if (topic.isPresent()) {
      unsent.remove(topic.get());
      openTopics.add(topic.get());
      return Optional.of(newest.get(topic.get()));
    }
    Optional<Entry> event = events.stream().filter(e -> !e.open).findFirst();
    event.ifPresent(e -> e.open = true);
    return event;
  }

  /** The broker has it. */
  synchronized void acknowledged(Entry entry) {
    if (!entry.retained) {
      if (events.remove(entry)) {
        eventBytes -= entry.payload.length;
      }
      return;
    }
    openTopics.remove(entry.topic);
    if (entry.payload.length == 0 && newest.get(entry.topic) == entry) {
      newest.remove(entry.topic);
    }
  }

  /** Entries not acknowledged. */
  synchronized int waiting() {
    Set<String> topics = new HashSet<>(unsent);
    topics.addAll(openTopics);
    return topics.size() + events.size();
  }

  /** Events that left without an acknowledgement; a few of them may have arrived all the same. */
  synchronized long droppedEvents() {
    return droppedEvents;
  }

  /** Retained values not taken, as the topic or the size was out of bounds. */
  synchronized long refusedStates() {
    return refusedStates;
  }

  private boolean unusable(String topic, byte[] payload) {
    return payload.length > bounds.payloadBytesMax || !TOPIC.matcher(topic).matches();
  }
}
