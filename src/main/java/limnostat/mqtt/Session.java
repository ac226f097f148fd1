package limnostat.mqtt;

import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.internal.NetworkModule;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.tinylog.Logger;

/**
 * One connection attempt and the connection that results. It has its own client object, because a
 * used one may be stuck; late callbacks of an old client then reach nobody. The mqtt thread owns
 * it, and the library's threads only leave notices. (A callback that threw would end the
 * connection. A callback that called the client would wait for itself.)
 */
final class Session implements MqttCallback, AutoCloseable {

  /** A notice from one of the library's threads. */
  sealed interface Notice {
    /** The broker has answered a connect or subscribe. */
    record Answered(IMqttToken token) implements Notice {}

    /** The broker has acknowledged this message. */
    record Acknowledged(Outbox.Entry entry) implements Notice {}

    /** The connection is no longer usable. */
    record Failed(Throwable cause) implements Notice {}
  }

  /** The library's client. It never sees anything that violates the standard. */
  private final class GuardedClient extends MqttAsyncClient {
    GuardedClient(String uri, String clientId) throws MqttException {
      super(uri, clientId, new MemoryPersistence());
    }

    /**
     * The library tells its sender thread just once to end. If that happens just before the sender
     * starts to wait, it waits forever (1.2.5, CommsSender.stop).
     */
    void wakeSender() {
      comms.getClientState().notifyQueueLock();
    }

    @Override
    protected NetworkModule[] createNetworkModules(String address, MqttConnectOptions options)
        throws MqttException {
      ways =
          Arrays.stream(super.createNetworkModules(address, options))
              .map(module -> new GuardedWay(module, conversation))
              .toArray(GuardedWay[]::new);
      return ways;
    }
  }

  static final int QOS = 1;

  /** The library refuses to have more than this in flight. */
  private static final int LIBRARY_OPEN_MAX = 20;

  /** Time limit for the socket connection and for the TLS handshake, s. */
  private static final int CONNECTION_TIMEOUT_S = 5;

  /** Covers the socket, then the handshake, then the start of the library's threads. */
  private static final Duration END_MAX = Duration.ofSeconds(2 * CONNECTION_TIMEOUT_S + 1);

  private static final Duration END_POLL = Duration.ofMillis(10);

  /** Time for the broker to accept a disconnect, ms. */
  private static final int DISCONNECT_MS = 500;

  /** Return code of SUBACK, MQTT 3.1.1 section 3.9.3. */
  private static final int SUBSCRIPTION_REFUSED = 0x80;

  private final Queue<Notice> notices = new ConcurrentLinkedQueue<>();
  private final List<String> topics;
  private final Conversation conversation;
  private final GuardedClient client;
  private final MqttConnectOptions options;
  private final Inbox inbox;
  private final LinkThreads threads;
  private final Runnable wake;

  private volatile Optional<Throwable> uncaught = Optional.empty();

  /** Created by the connect, on this session's own thread. */
  private GuardedWay[] ways = {};

  /**
   * @param will message that the broker publishes for us when the connection breaks
   * @param topics topics to read, the command topic first
   * @param wake called after each notice, from any thread
   */
  Session(
      Broker broker,
      Optional<char[]> password,
      LinkTimes times,
      Outbox.Entry will,
      List<String> topics,
      Inbox inbox,
      LinkThreads threads,
      Runnable wake)
      throws MqttException, ConnectionFault {
    this.topics = List.copyOf(topics);
    this.conversation = new Conversation(topics);
    this.inbox = inbox;
    this.threads = threads;
    this.wake = wake;
    client = new GuardedClient(broker.uri(), broker.clientId());
    client.setCallback(this);
    options = new MqttConnectOptions();
    options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
    // A persistent session would deliver old commands as if they were new.
    options.setCleanSession(true);
    options.setAutomaticReconnect(false);
    options.setKeepAliveInterval(Math.toIntExact(times.keepAlive().toSeconds()));
    options.setConnectionTimeout(CONNECTION_TIMEOUT_S);
    options.setMaxInflight(LIBRARY_OPEN_MAX);
    options.setWill(will.topic(), will.payload(), QOS, will.retained());
    broker.settings().user().ifPresent(options::setUserName);
    password.ifPresent(options::setPassword);
    if (broker.settings().tls()) {
      options.setSocketFactory(
          TlsSockets.trusting(broker.settings().caFile(), broker.settings().identity()));
      options.setHttpsHostnameVerificationEnabled(true);
    }
  }

  /** Connects. Leads to an answered or failed notice. */
  void connect() throws MqttException {
    client.connect(options, null, listener(Notice.Answered::new));
  }

  /** Subscribes to all topics with one packet. Leads to an answered or failed notice. */
  void subscribe() throws MqttException {
    client.subscribe(
        topics.toArray(String[]::new),
        topics.stream().mapToInt(topic -> QOS).toArray(),
        null,
        listener(Notice.Answered::new));
  }

  /** The topics that the answer to {@link #subscribe} refused. */
  List<String> refused(Notice.Answered subscription) {
    int[] granted = subscription.token().getGrantedQos();
    return IntStream.range(0, topics.size())
        .filter(i -> granted[i] == SUBSCRIPTION_REFUSED)
        .mapToObj(topics::get)
        .toList();
  }

  /** Publishes an entry. Leads to an acknowledged or failed notice. */
  void publish(Outbox.Entry entry) throws MqttException {
    client.publish(
        entry.topic(),
        entry.payload(),
        QOS,
        entry.retained(),
        null,
        listener(token -> new Notice.Acknowledged(entry)));
  }

  /** The oldest notice not yet seen. */
  Optional<Notice> poll() {
    return Optional.ofNullable(notices.poll());
  }

  /** Ends the connection in good order, so that the broker publishes no will. */
  void disconnect() throws MqttException {
    client.disconnect(DISCONNECT_MS).waitForCompletion(DISCONNECT_MS);
  }

  /** A library thread ended because of this exception. */
  void failed(Throwable thrown) {
    uncaught = Optional.of(thrown);
    tell(new Notice.Failed(thrown));
  }

  /**
   * The root cause of a failed connection, where it is known. A call to the client may fail only
   * because it is already closed, before the real reason is among the notices.
   */
  Optional<Throwable> reason() {
    return conversation.broken().<Throwable>map(broken -> broken).or(() -> uncaught);
  }

  /**
   * Closes by force, without notifying the broker. Nothing else frees a stuck client. Returns once
   * the library's threads have ended, so that a broker that accepts and then closes cannot leave
   * any of them behind. If they do not end, it returns after some seconds.
   *
   * <p>The sockets are closed first; otherwise each of those threads would wait for its own time
   * limit. While the library is still connecting, nothing else is done. Its connect task waits
   * until it has seen each thread it starts running, and it would wait forever for a thread that
   * had already ended. The receiver cannot end by itself that early, because it may not read yet.
   */
  @Override
  public void close() {
    long deadlineNanos = System.nanoTime() + END_MAX.toNanos();
    try {
      while (threads.running() > 0 && System.nanoTime() - deadlineNanos < 0) {
        if (threads.connecting()) {
          cut();
        } else {
          end();
        }
        LockSupport.parkNanos(END_POLL.toNanos());
      }
      end();
      client.close(true);
    } catch (MqttException e) {
      Logger.debug(e, "MQTT client could not be closed");
    }
  }

  private void cut() {
    for (GuardedWay way : ways) {
      try {
        way.cut();
      } catch (IOException e) {
        Logger.debug(e, "MQTT connection could not be closed");
      }
    }
  }

  private void end() throws MqttException {
    cut();
    conversation.end();
    client.disconnectForcibly(0, 1, false);
    client.wakeSender();
  }

  @Override
  public void connectionLost(Throwable cause) {
    tell(new Notice.Failed(cause));
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    try {
      if (topic.equals(topics.get(0))) {
        inbox.accept(message.getPayload(), message.isRetained(), System.nanoTime());
      } else {
        inbox.accept(topic, message.getPayload(), message.isRetained(), System.nanoTime());
      }
    } catch (Throwable t) {
      tell(new Notice.Failed(t));
    }
  }

  @Override
  public void deliveryComplete(IMqttDeliveryToken token) {
    // each message has its own listener
  }

  private IMqttActionListener listener(Function<IMqttToken, Notice> success) {
    return new IMqttActionListener() {
      @Override
      public void onSuccess(IMqttToken token) {
        tell(success.apply(token));
      }

      @Override
      public void onFailure(IMqttToken token, Throwable cause) {
        tell(new Notice.Failed(cause));
      }
    };
  }

  private void tell(Notice notice) {
    notices.add(notice);
    wake.run();
  }
}
