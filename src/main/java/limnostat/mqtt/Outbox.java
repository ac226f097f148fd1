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
 * What is to be published. Of a retained topic only the newest value is kept, and kept for good, to
 * be published again after every connect; what is sent once waits in a {@link MessageQueue}. An
 * entry leaves when the broker has acknowledged it, and not before. The lock is held for moments
 * only, never during I/O.
 */
final class Outbox {

  /** One message; two of equal content are still two. */
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

    /** Of a message that is sent once; else 0. */
    long number() {
      return number;
    }

    Worth worth() {
      return worth;
    }

    /** Whether it is under way. */
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
   * @param topicsMax retained topics
   * @param eventsMax messages that are sent once, beyond which readings and notes give way
   * @param recordsMax records, most of them with the keeper only, beyond which the oldest go
   * @param bytesMax payload bytes, of retained topics and of those messages each
   * @param payloadBytesMax payload bytes of one message
   */
  record Bounds(int topicsMax, int eventsMax, int recordsMax, long bytesMax, int payloadBytesMax) {

    /** Some 45 MB of a card; src/site/markdown/measurements.md has what it rests on. */
    private static final int RECORDS_MAX = 200_000;

    /** Little against a heap of 48 MB: a kilobyte a message is twice what an event has. */
    static Bounds of(int messages) {
      return new Bounds(512, messages, RECORDS_MAX, Math.max(1 << 20, 1024L * messages), 1 << 18);
    }
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
  private final MessageQueue messages;
  private long retainedBytes;
  private long unusableEvents;
  private long refusedStates;

  /**
   * @param keeper has a copy of what is sent once
   * @param wake called by any thread when there may be more to take
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

  /** A new connection: nothing is under way, every retained topic is to be sent again. */
  synchronized void connected() {
    openTopics.clear();
    unsent.clear();
    unsent.addAll(newest.keySet());
    messages.connected();
  }

  /**
   * The next entry to be sent, which is then under way: retained topics first, the others in order.
   * A topic has one message under way at most, so that a slow broker gets fewer values, not old
   * ones.
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

  /** The broker has it. */
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

  /** Entries not acknowledged. */
  synchronized int waiting() {
    Set<String> topics = new HashSet<>(unsent);
    topics.addAll(openTopics);
    return topics.size() + messages.waiting();
  }

  /** Events that left without an acknowledgement; a few of them may have arrived all the same. */
  synchronized long droppedEvents() {
    return unusableEvents + messages.dropped();
  }

  /** Readings that gave way, as there was no room for all of them. */
  synchronized long thinnedReadings() {
    return messages.thinned();
  }

  /** Records that left so, a part of {@link #droppedEvents}. */
  synchronized long droppedRecords() {
    return messages.droppedRecords();
  }

  /** Whether there was ever no room for all that waits. */
  synchronized boolean overflowed() {
    return messages.overflowed();
  }

  /** Retained values not taken, as the topic or the size was out of bounds. */
  synchronized long refusedStates() {
    return refusedStates;
  }

  private boolean unusable(String topic, byte[] payload) {
    return payload.length > bounds.payloadBytesMax || !TOPIC.matcher(topic).matches();
  }
}
