package limnostat.mqtt;

import java.util.Collection;
import java.util.Optional;
import java.util.logging.Handler;
import java.util.logging.LogManager;
import limnostat.config.MqttSettings;
import limnostat.mqtt.Message.Worth;

/**
 * The link to the broker. Connects by itself, for ever; publishes {@code availability} below the
 * site's topic, {@code online} or {@code offline}, retained; reads the topic {@code command} there.
 *
 * <p>{@link #retain}, {@link #event} and the like, {@link #pollCommand} and {@link #health} may be
 * called from any thread at any time, before {@link #start} and after {@link #close} too; they
 * never wait for the network and never throw. A subtopic consists of letters, digits and {@code _ .
 * - /}; a payload has at most 256 kB and belongs to the link from then on. What is out of bounds is
 * counted in {@link #health}.
 *
 * <p>Of a message from the broker no more than {@link BoundedInput#PACKET_BYTES_MAX} bytes are
 * taken into memory, whatever its length.
 */
public final class Link implements AutoCloseable {
  private static final long CLOSE_MS_MAX = 2000;

  private final Broker broker;
  private final Outbox outbox;
  private final Inbox inbox = new Inbox(System.nanoTime());
  private final Worker worker;
  private final Thread thread;

  /**
   * @param siteId id of the installation; no other client of this broker may have it
   * @param password for the user of the settings
   * @param keeper keeps what is sent once beyond this process; what an earlier one left is sent
   */
  public Link(MqttSettings settings, String siteId, Password password, Keeper keeper) {
    this(settings, siteId, password, keeper, LinkTimes.DEFAULT);
  }

  /** One whose password stays as it is. */
  public Link(MqttSettings settings, String siteId, Optional<char[]> password, Keeper keeper) {
    this(settings, siteId, Password.fixed(password), keeper);
  }

  /** One that keeps nothing beyond the process. */
  public Link(MqttSettings settings, String siteId, Optional<char[]> password) {
    this(settings, siteId, password, Keeper.NONE);
  }

  Link(MqttSettings settings, String siteId, Password password, Keeper keeper, LinkTimes times) {
    broker = new Broker(settings, siteId);
    outbox = new Outbox(Outbox.Bounds.of(settings.outboxMessages()), keeper, this::wake);
    LinkThreads threads = new LinkThreads();
    worker = new Worker(broker, password, times, outbox, inbox, threads);
    // The library's threads are daemons because this one is.
    thread = new Thread(threads, worker, "mqtt");
    thread.setDaemon(true);
    // First of all retained topics, so that it is the first message of every connection.
    outbox.retain(broker.topic(Worker.AVAILABILITY), Worker.ONLINE);
    silenceLibraryLog();
  }

  /** What a person should be told of these settings, if anything: no encryption over a network. */
  public static Optional<String> warning(MqttSettings settings) {
    return new Broker(settings, "").plainTextWarning();
  }

  /** Starts connecting, unless the settings say that there is no broker. Once. */
  public void start() {
    if (broker.settings().enabled()) {
      thread.start();
    }
  }

  /**
   * Has our presence on another topic than {@code availability}, which is removed; its word for
   * being there is the caller's to retain, as soon as all else is. Before {@link #start}.
   */
  public void announceAs(Presence presence) {
    clear(Worker.AVAILABILITY);
    worker.announceAs(presence);
  }

  /**
   * Reads what comes on other topics too, {@link Inbound.Other}. Before {@link #start}.
   *
   * @param topics each whole and without wildcards, so that nobody can choose a topic for us
   */
  public void alsoRead(Collection<String> topics) {
    worker.alsoRead(topics);
  }

  /** Sets a retained topic below the site's; only the newest value is sent. */
  public void retain(String subtopic, byte[] payload) {
    retainAtRoot(broker.topic(subtopic), payload);
  }

  /** As {@link #retain}, but for a whole topic, such as a hub's discovery topic. */
  public void retainAtRoot(String topic, byte[] payload) {
    outbox.retain(topic, payload);
    wake();
  }

  /** Removes a retained topic below the site's from the broker. */
  public void clear(String subtopic) {
    retain(subtopic, new byte[0]);
  }

  /**
   * Publishes once, in order, not retained; after a broken connection or a kill some may come
   * twice. While there is a keeper the oldest give way after years only; without one at the bound.
   */
  public void event(String subtopic, byte[] payload) {
    send(subtopic, Worth.RECORD, payload);
  }

  /** As {@link #event}, but when there is no room for all of them the oldest notes go. */
  public void note(String subtopic, byte[] payload) {
    send(subtopic, Worth.NOTE, payload);
  }

  /** As {@link #event}, but when there is no room every second reading goes, before any note. */
  public void reading(String subtopic, byte[] payload) {
    send(subtopic, Worth.READING, payload);
  }

  /** Without a broker nothing waits for one. */
  private void send(String subtopic, Worth worth, byte[] payload) {
    if (broker.settings().enabled()) {
      outbox.send(broker.topic(subtopic), worth, payload);
      wake();
    }
  }

  private void wake() {
    if (worker != null) { // a keeper may call before there is one
      worker.wake();
    }
  }

  /** Whether there is a broker by the settings, and it takes no messages now. */
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
   * Publishes what waits and {@code offline}, then disconnects; at most 2 s, whatever the broker
   * does. What it does not take in that time is lost.
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
