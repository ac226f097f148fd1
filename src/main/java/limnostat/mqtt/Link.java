package limnostat.mqtt;

import java.util.Collection;
import java.util.Optional;
import java.util.logging.Handler;
import java.util.logging.LogManager;
import limnostat.config.MqttSettings;
import limnostat.mqtt.Message.Worth;

/**
 * The link to the broker. It connects and reconnects by itself forever. Below the site's topic it
 * publishes {@code availability}, {@code online} or {@code offline}, retained, and reads the topic
 * {@code command}.
 *
 * <p>{@link #retain}, {@link #event} and the like, {@link #pollCommand} and {@link #health} may be
 * called from any thread at any time, even before {@link #start} and after {@link #close}. They
 * never wait for the network and never throw. A subtopic consists of letters, digits and {@code _ .
 * - /}. A payload has at most 256 kB and belongs to the link from then on. Messages that break
 * these limits are counted in {@link #health}.
 *
 * <p>At most {@link BoundedInput#PACKET_BYTES_MAX} bytes of a message from the broker are held in
 * memory, whatever its length.
 */
public final class Link implements AutoCloseable {
  private static final long CLOSE_MS_MAX = 2000;

  private final Broker broker;
  private final Outbox outbox;
  private final Inbox inbox = new Inbox(System.nanoTime());
  private final Worker worker;
  private final Thread thread;

  /**
   * @param siteId id of the installation; no other client of this broker may use it
   * @param password password of the configured user
   * @param keeper stores messages that are sent once, beyond this process; those that an earlier
   *     process left are sent
   */
  public Link(MqttSettings settings, String siteId, Password password, Keeper keeper) {
    this(settings, siteId, password, keeper, LinkTimes.DEFAULT);
  }

  /** A link whose password does not change. */
  public Link(MqttSettings settings, String siteId, Optional<char[]> password, Keeper keeper) {
    this(settings, siteId, Password.fixed(password), keeper);
  }

  /** A link that stores nothing beyond the process. */
  public Link(MqttSettings settings, String siteId, Optional<char[]> password) {
    this(settings, siteId, password, Keeper.NONE);
  }

  Link(MqttSettings settings, String siteId, Password password, Keeper keeper, LinkTimes times) {
    broker = new Broker(settings, siteId);
    outbox = new Outbox(Outbox.Bounds.of(settings.outboxMessages()), keeper, this::wake);
    LinkThreads threads = new LinkThreads();
    worker = new Worker(broker, password, times, outbox, inbox, threads);
    // The library's threads are daemon threads because this one is.
    thread = new Thread(threads, worker, "mqtt");
    thread.setDaemon(true);
    // The first of all retained topics, so that it is the first message of every connection.
    outbox.retain(broker.topic(Worker.AVAILABILITY), Worker.ONLINE);
    silenceLibraryLog();
  }

  /** A warning about these settings, if any: no encryption over a network. */
  public static Optional<String> warning(MqttSettings settings) {
    return new Broker(settings, "").plainTextWarning();
  }

  /** Starts connecting, unless the settings disable the broker. May be called once. */
  public void start() {
    if (broker.settings().enabled()) {
      thread.start();
    }
  }

  /**
   * Uses another topic than {@code availability} for our presence; {@code availability} is removed.
   * The caller must retain the value that means present, as soon as everything else is retained. To
   * be called before {@link #start}.
   */
  public void announceAs(Presence presence) {
    clear(Worker.AVAILABILITY);
    worker.announceAs(presence);
  }

  /**
   * Reads other topics too, as {@link Inbound.Other}. To be called before {@link #start}.
   *
   * @param topics full topics without wildcards, so that nobody else can choose a topic for us
   */
  public void alsoRead(Collection<String> topics) {
    worker.alsoRead(topics);
  }

  /** Sets a retained topic below the site's; only the newest value is sent. */
  public void retain(String subtopic, byte[] payload) {
    retainAtRoot(broker.topic(subtopic), payload);
  }

  /** Like {@link #retain}, but for a full topic, such as a hub's discovery topic. */
  public void retainAtRoot(String topic, byte[] payload) {
    outbox.retain(topic, payload);
    wake();
  }

  /** Removes a retained topic below the site's from the broker. */
  public void clear(String subtopic) {
    retain(subtopic, new byte[0]);
  }

  /**
   * Publishes once, in order, not retained. After a broken connection or a kill some messages may
   * arrive twice. With a keeper the oldest are dropped only after years; without one they are
   * dropped at the bound.
   */
  public void event(String subtopic, byte[] payload) {
    send(subtopic, Worth.RECORD, payload);
  }

  /** Like {@link #event}, but when there is not enough room the oldest notes are dropped. */
  public void note(String subtopic, byte[] payload) {
    send(subtopic, Worth.NOTE, payload);
  }

  /**
   * Like {@link #event}, but when there is not enough room every second reading is dropped, before
   * any note.
   */
  public void reading(String subtopic, byte[] payload) {
    send(subtopic, Worth.READING, payload);
  }

  /** Without a broker nothing is queued. */
  private void send(String subtopic, Worth worth, byte[] payload) {
    if (broker.settings().enabled()) {
      outbox.send(broker.topic(subtopic), worth, payload);
      wake();
    }
  }

  private void wake() {
    if (worker != null) { // a keeper may call before the worker exists
      worker.wake();
    }
  }

  /** Whether a broker is configured but takes no messages now. */
  public boolean away() {
    return broker.settings().enabled() && !worker.status().connected();
  }

  /** The next command, or why one was dropped. */
  public Optional<Inbound> pollCommand() {
    return inbox.poll();
  }

  public LinkHealth health() {
    Worker.Status status = worker.status();
    return new LinkHealth(
        status.connected(),
        (System.nanoTime() - status.sinceNanos()) * 1e-9,
        status.attempts(),
        status.lastCause(),
        outbox.waiting(),
        outbox.droppedEvents(),
        outbox.thinnedReadings(),
        outbox.refusedStates(),
        inbox.refused());
  }

  /**
   * Publishes the waiting messages and {@code offline}, then disconnects. This takes at most 2 s,
   * whatever the broker does. What the broker does not take in that time is lost.
   */
  @Override
  public void close() {
    worker.stop();
    try {
      thread.join(CLOSE_MS_MAX);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The library logs through java.util.logging, which by default writes to standard error. */
  private static void silenceLibraryLog() {
    java.util.logging.Logger root = LogManager.getLogManager().getLogger("");
    for (Handler handler : root.getHandlers()) {
      root.removeHandler(handler);
    }
  }
}
