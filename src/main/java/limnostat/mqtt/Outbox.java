package limnostat.mqtt;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import limnostat.mqtt.Message.Worth;

/**
 * The messages to be published. For a retained topic only the newest value is kept. It is kept
 * permanently, to be published again after every connect. Messages that are sent once wait in a
 * {@link MessageQueue}. An entry leaves only when the broker has acknowledged it. The lock is held
 * only briefly, never during I/O.
 */
final class Outbox {

  /** One message. Two messages with equal content are still two entries. */
  static final class Entry {
    private final String topic;
    private final byte[] payload;
    private final boolean retained;
    private final long number;
    private final Worth worth;
    private boolean open;

    Entry(String topic, byte[] payload, boolean retained) {
      this.topic = topic;
      this.payload = payload;
      this.retained = retained;
      this.number = 0;
      this.worth = Worth.NOTE;
    }

    Entry(Message message) {
      this.topic = message.topic();
      this.payload = message.payload();
      this.retained = false;
      this.number = message.number();
      this.worth = message.worth();
    }

    /** The number of a message that is sent once; else 0. */
    long number() {
      return number;
    }

    Worth worth() {
      return worth;
    }

    /** Whether it is in flight. */
    boolean open() {
      return open;
    }

    void open(boolean underWay) {
      open = underWay;
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
   * @param topicsMax maximum number of retained topics
   * @param eventsMax number of messages that are sent once, beyond which readings and notes are
   *     dropped
   * @param recordsMax number of records, most of them only with the keeper, beyond which the oldest
   *     are dropped
   * @param bytesMax maximum payload bytes, for retained topics and for those messages separately
   * @param payloadBytesMax maximum payload bytes of one message
   */
  record Bounds(int topicsMax, int eventsMax, int recordsMax, long bytesMax, int payloadBytesMax) {

    /**
     * About 43 MB on a memory card; src/site/markdown/measurements.md has the measurements behind
     * it.
     */
    private static final int RECORDS_MAX = 200_000;

    /**
     * Small compared with a heap of 48 MB. One kilobyte per message is twice the size of an event.
     */
    static Bounds of(int messages) {
      return new Bounds(512, messages, RECORDS_MAX, Math.max(1 << 20, 1024L * messages), 1 << 18);
    }
  }

  /**
   * The permitted form of a topic. It is stricter than the protocol: the library throws on a topic
   * that it does not accept, and an entry that can never be sent would stay forever.
   */
  private static final Pattern TOPIC = Pattern.compile("[A-Za-z0-9_./$-]{1,200}");

  private final Bounds bounds;
  private final Map<String, Entry> newest = new LinkedHashMap<>();
  private final Set<String> unsent = new LinkedHashSet<>();
  private final Set<String> openTopics = new HashSet<>();
  private final MessageQueue messages;
  private long retainedBytes;
  private long unusableEvents;
  private long refusedStates;

  /**
   * @param keeper stores a copy of each message that is sent once
   * @param wake called from any thread when there may be more to take
   */
  Outbox(Bounds bounds, Keeper keeper, Runnable wake) {
    this.bounds = bounds;
    Consumer<Keeper.Page> reader =
        page -> {
          if (read(page)) {
            wake.run();
          }
        };
    this.messages = new MessageQueue(bounds, keeper, reader);
    keeper.onChange(wake);
  }

  private synchronized boolean read(Keeper.Page page) {
    return messages.read(page);
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

  /** Adds a message that is sent once, in order. */
  synchronized void send(String topic, Worth worth, byte[] payload) {
    if (unusable(topic, payload) || payload.length > bounds.bytesMax) {
      unusableEvents++;
      return;
    }
    messages.add(topic, worth, payload);
  }

  /** A new connection: nothing is in flight, and every retained topic has to be sent again. */
  synchronized void connected() {
    openTopics.clear();
    unsent.clear();
    unsent.addAll(newest.keySet());
    messages.connected();
  }

  /**
   * The next entry to send, which is then in flight. Retained topics come first, then the others in
   * order. Each retained topic has at most one message in flight, so that a slow broker gets fewer
   * values rather than old ones.
   */
  synchronized Optional<Entry> take() {
    Optional<String> topic = unsent.stream().filter(t -> !openTopics.contains(t)).findFirst();
    if (topic.isPresent()) {
      unsent.remove(topic.get());
      openTopics.add(topic.get());
      return Optional.of(newest.get(topic.get()));
    }
    return messages.take();
  }

  /** The broker has acknowledged the entry. */
  synchronized void acknowledged(Entry entry) {
    if (!entry.retained) {
      messages.acknowledged(entry);
      return;
    }
    openTopics.remove(entry.topic);
    if (entry.payload.length == 0 && newest.get(entry.topic) == entry) {
      newest.remove(entry.topic);
    }
  }

  /** Number of entries that are not acknowledged. */
  synchronized int waiting() {
    Set<String> topics = new HashSet<>(unsent);
    topics.addAll(openTopics);
    return topics.size() + messages.waiting();
  }

  /** Number of events dropped without an acknowledgement. A few of them may have arrived anyway. */
  synchronized long droppedEvents() {
    return unusableEvents + messages.dropped();
  }

  /** Number of readings dropped because there was no room for all of them. */
  synchronized long thinnedReadings() {
    return messages.thinned();
  }

  /** Number of records among {@link #droppedEvents}. */
  synchronized long droppedRecords() {
    return messages.droppedRecords();
  }

  /** Whether there has ever been too little room for everything that waits. */
  synchronized boolean overflowed() {
    return messages.overflowed();
  }

  /** Number of retained values refused because their topic or size was out of bounds. */
  synchronized long refusedStates() {
    return refusedStates;
  }

  private boolean unusable(String topic, byte[] payload) {
    return payload.length > bounds.payloadBytesMax || !TOPIC.matcher(topic).matches();
  }
}
