package limnostat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Function;
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
 * One attempt to connect and what comes of it, with a client object of its own: a used one may be
 * stuck, and its late callbacks then reach nobody. Owned by the mqtt thread; the library's threads
 * only leave notices. (A callback that threw would end the connection, one that called the client
 * would wait for itself.)
 */
final class Session implements MqttCallback, AutoCloseable {

  /** What the library's threads have to say. */
  sealed interface Notice {
    /** The broker has answered to connect or subscribe. */
    record Answered(IMqttToken token) implements Notice {}

    /** The broker has this message. */
    record Acknowledged(Outbox.Entry entry) implements Notice {}

    /** The connection is of no use any more. */
    record Failed(Throwable cause) implements Notice {}
  }

  /** The library's client, which takes no packet of any length into memory. */
  private static final class BoundedClient extends MqttAsyncClient {
    BoundedClient(String uri, String clientId) throws MqttException {
      super(uri, clientId, new MemoryPersistence());
    }

    @Override
    protected NetworkModule[] createNetworkModules(String address, MqttConnectOptions options)
        throws MqttException {
      return Arrays.stream(super.createNetworkModules(address, options))
          .map(Bounded::new)
          .toArray(NetworkModule[]::new);
    }
  }

  /** The library's way to the broker, plain or encrypted. */
  private record Bounded(NetworkModule module) implements NetworkModule {
    @Override
    public void start() throws IOException, MqttException {
      module.start();
    }

    @Override
    public InputStream getInputStream() throws IOException {
      return new BoundedInput(module.getInputStream());
    }

    @Override
    public OutputStream getOutputStream() throws IOException {
      return module.getOutputStream();
    }

    @Override
    public void stop() throws IOException {
      module.stop();
    }

    @Override
    public String getServerURI() {
      return module.getServerURI();
    }
  }

  static final int QOS = 1;

  /** The library refuses more than this under way. */
  private static final int LIBRARY_OPEN_MAX = 20;

  /** Limit on the socket and the TLS handshake, s. */
  private static final int CONNECTION_TIMEOUT_S = 5;

  /** Socket, then handshake, then the start of the library's threads. */
  private static final Duration CONNECT_TASK_MAX = Duration.ofSeconds(2 * CONNECTION_TIMEOUT_S + 1);

  private static final Duration CONNECT_TASK_POLL = Duration.ofMillis(20);

  /** Time for the broker to take a disconnect. */
  private static final int DISCONNECT_MS = 500;

  /** Of SUBACK, MQTT 3.1.1 section 3.9.3. */
  private static final int SUBSCRIPTION_REFUSED = 0x80;

  private final Queue<Notice> notices = new ConcurrentLinkedQueue<>();
  private final MqttAsyncClient client;
  private final MqttConnectOptions options;
  private final String commandTopic;
  private final Inbox inbox;
  private final Runnable wake;

  /**
   * @param will message that the broker publishes for us when the connection breaks
   * @param wake called after each notice, from any thread
   */
  Session(
      Broker broker,
      Optional<char[]> password,
      LinkTimes times,
      Outbox.Entry will,
      Inbox inbox,
      Runnable wake)
      throws MqttException, Trouble {
    this.commandTopic = broker.topic(Worker.COMMAND);
    this.inbox = inbox;
    this.wake = wake;
    client = new BoundedClient(broker.uri(), broker.clientId());
    client.setCallback(this);
    options = new MqttConnectOptions();
    options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
    // A kept session would bring old commands as if they were fresh.
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

  /** Answered, or failed. */
  void connect() throws MqttException {
    client.connect(options, null, listener(Notice.Answered::new));
  }

  /** Answered, or failed. */
  void subscribe(String topic) throws MqttException {
    client.subscribe(topic, QOS, null, listener(Notice.Answered::new));
  }

  /** Whether the answer to {@link #subscribe} is a no. */
  static boolean refused(Notice.Answered subscription) {
    int[] granted = subscription.token().getGrantedQos();
    return granted.length > 0 && granted[0] == SUBSCRIPTION_REFUSED;
  }

  /** Acknowledged, or failed. */
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

  /** By force, and without a word to the broker; the only thing that frees a stuck client. */
  @Override
  public void close() {
    awaitConnectTask();
    try {
      client.disconnectForcibly(0, 1, false);
      client.close(true);
    } catch (MqttException e) {
      Logger.debug(e, "MQTT client could not be closed");
    }
  }

  /**
   * Lets the library's connect task end, which its own limits on socket and handshake see to. It
   * starts the receiver and waits for it to run; a forced close in that moment stops the receiver,
   * and the task would wait for ever, one thread for each such attempt.
   */
  private static void awaitConnectTask() {
    long deadlineNanos = System.nanoTime() + CONNECT_TASK_MAX.toNanos();
    while (connectTaskRuns() && System.nanoTime() < deadlineNanos) {
      LockSupport.parkNanos(CONNECT_TASK_POLL.toNanos());
    }
  }

  /** The task's thread is a child of ours, so in our thread group; it is named once it runs. */
  private static boolean connectTaskRuns() {
    ThreadGroup group = Thread.currentThread().getThreadGroup();
    Thread[] threads = new Thread[group.activeCount() + 16];
    int n = group.enumerate(threads, false);
    return Arrays.stream(threads, 0, n)
        .map(Thread::getName)
        .anyMatch(name -> name.startsWith("MQTT Con: ") || name.startsWith("Thread-"));
  }

  @Override
  public void connectionLost(Throwable cause) {
    tell(new Notice.Failed(cause));
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    try {
      if (topic.equals(commandTopic)) {
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
