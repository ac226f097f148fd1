package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.net.InetAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.locks.LockSupport;
import limnostat.config.ConfigurationException;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.tinylog.Logger;

/**
 * The loop of the mqtt thread: connect, subscribe, publish while the connection lasts, close,
 * pause, repeat. Everything except {@link #stop}, {@link #wake} and {@link #status} runs on that
 * thread.
 */
final class Worker implements Runnable {
  static final String AVAILABILITY = "availability";
  static final String COMMAND = "command";
  static final byte[] ONLINE = "online".getBytes(UTF_8);
  static final String OFFLINE = "offline";

  /** Messages in flight. This is below the library's limit, because the library throws there. */
  private static final int OPEN_MAX = 15;

  /**
   * Payload bytes in flight, after which no further message is sent. The library counts only what
   * it has written, so its own limit is no protection against a frozen broker.
   */
  private static final int OPEN_BYTES_MAX = 1 << 16;

  /**
   * Number of losses within seconds of connecting after which another client with our id is
   * assumed.
   */
  private static final int SHORT_LOSSES = 3;

  /**
   * Maximum number of threads left over from connections that could not be ended. Above it, no
   * further connection is started.
   */
  private static final int LEFT_OVER_MAX = 8;

  /** Time at an orderly stop for the waiting messages; {@code FAREWELL} is for the last message. */
  private static final Duration FLUSH = Duration.ofMillis(700);

  private static final Duration FAREWELL = Duration.ofMillis(300);

  /**
   * The status, for other threads.
   *
   * @param sinceNanos monotonic time of the last change of {@code connected}
   */
  record Status(boolean connected, long sinceNanos, long attempts, Optional<String> lastCause) {}

  private final Broker broker;
  private final Password password;
  private final LinkTimes times;
  private final Outbox outbox;
  private final Inbox inbox;
  private final BackOff backOff;
  private final LinkLog log;

  private Presence presence;
  private final List<String> topics = new ArrayList<>();

  private final LinkThreads threads;
  private volatile Thread thread;
  private volatile Optional<Session> session = Optional.empty();
  private volatile boolean stopping;
  private volatile Status status = new Status(false, System.nanoTime(), 0, Optional.empty());

  private int open;
  private long openBytes;
  private long progressNanos;
  private int shortLosses;

  Worker(
      Broker broker,
      Password password,
      LinkTimes times,
      Outbox outbox,
      Inbox inbox,
      LinkThreads threads) {
    this.broker = broker;
    this.password = password;
    this.times = times;
    this.outbox = outbox;
    this.inbox = inbox;
    this.backOff = new BackOff(times, () -> ThreadLocalRandom.current().nextDouble());
    this.log = new LinkLog(broker.address());
    this.presence = new Presence(broker.topic(AVAILABILITY), "", OFFLINE, OFFLINE);
    this.topics.add(broker.topic(COMMAND));
    this.threads = threads;
    threads.onFailure(thrown -> session.ifPresent(s -> s.failed(thrown)));
  }

  /** May be called only before the thread is started. */
  void announceAs(Presence other) {
    presence = other;
  }

  /** May be called only before the thread is started. */
  void alsoRead(Collection<String> more) {
    topics.addAll(more);
  }

  /** Signals that there is something to do. Can be called from any thread; never waits. */
  void wake() {
    LockSupport.unpark(thread);
  }

  void stop() {
    stopping = true;
    wake();
  }

  Status status() {
    return status;
  }

  @Override
  public void run() {
    thread = Thread.currentThread();
    broker.plainTextWarning().ifPresent(line -> Logger.warn(line));
    while (!stopping) {
      Optional<ConnectionFault> trouble = attempt();
      log.waiting(outbox.overflowed(), outbox.droppedRecords())
          .ifPresent(line -> Logger.warn(line));
      if (trouble.isPresent() && !stopping) {
        pause(backOff.pause(trouble.get().mendsItself()));
      }
    }
  }

  /** One connection from start to end; empty if we were asked to stop. */
  private Optional<ConnectionFault> attempt() {
    status = new Status(false, status.sinceNanos(), status.attempts() + 1, status.lastCause());
    // Throwable, because this thread must survive anything that a message or the library throws.
    try {
      // The library resolves the name on a thread that cannot be stopped, and could still connect
      // after a forced close. We resolve the name here first, so that it is in the JDK's cache.
      InetAddress.getByName(broker.settings().host());
      begin();
      return Optional.empty();
    } catch (Throwable t) {
      return Optional.of(failed(ConnectionFault.of(broker, t)));
    } finally {
      if (status.connected()) {
        status = new Status(false, System.nanoTime(), status.attempts(), status.lastCause());
      }
    }
  }

  private void begin() throws MqttException, ConnectionFault, ConfigurationException {
    if (threads.running() > LEFT_OVER_MAX) {
      throw ConnectionFault.leftOver();
    }
    try (Session begun =
        new Session(
            broker,
            password.read(),
            times,
            word(presence.lost()),
            topics,
            inbox,
            threads,
            this::wake)) {
      session = Optional.of(begun);
      live(begun);
    } finally {
      session = Optional.empty();
    }
  }

  private void live(Session session) throws MqttException, ConnectionFault {
    try {
      if (enter(session)) {
        serve(session);
        farewell(session);
      }
    } catch (MqttException | ConnectionFault e) {
      Optional<Throwable> reason = session.reason();
      if (reason.isPresent()) {
        throw ConnectionFault.of(broker, reason.get());
      }
      throw e;
    }
  }

  private ConnectionFault failed(ConnectionFault cause) {
    boolean briefly = false;
    if (status.connected()) {
      briefly = System.nanoTime() - status.sinceNanos() < times.settled().toNanos();
      shortLosses = briefly ? shortLosses + 1 : 0;
    }
    ConnectionFault trouble =
        briefly && shortLosses >= SHORT_LOSSES ? ConnectionFault.thrownOut(broker, cause) : cause;
    long sinceNanos = status.connected() ? System.nanoTime() : status.sinceNanos();
    status = new Status(false, sinceNanos, status.attempts(), Optional.of(trouble.getMessage()));
    log.down(trouble.getMessage(), briefly, nowS()).ifPresent(line -> Logger.warn(line));
    return trouble;
  }

  /** Connects and subscribes; false if we were asked to stop in the meantime. */
  private boolean enter(Session session) throws MqttException, ConnectionFault {
    session.connect();
    if (answer(session, "answer to a connect").isEmpty()) {
      return false;
    }
    if (!subscribed(session)) {
      return false;
    }
    outbox.connected();
    open = 0;
    openBytes = 0;
    if (!presence.init().isEmpty()) {
      publish(session, word(presence.init()));
    }
    status = new Status(true, System.nanoTime(), status.attempts(), status.lastCause());
    log.connected(nowS()).ifPresent(line -> Logger.info(line));
    return true;
  }

  /**
   * Subscribes; false if we were asked to stop in the meantime. A refusal by the broker is logged.
   */
  private boolean subscribed(Session session) throws MqttException, ConnectionFault {
    session.subscribe();
    Optional<Session.Notice.Answered> subscription = answer(session, "answer to a subscribe");
    List<String> refused = subscription.map(session::refused).orElse(List.of());
    if (!refused.isEmpty()) {
      Logger.warn(
          "broker {} does not let us read {}, so commands cannot come in; mend its access list",
          broker.address(),
          String.join(", ", refused));
    }
    return subscription.isPresent();
  }

  /** Waits for the next answer; empty if we were asked to stop in the meantime. */
  private Optional<Session.Notice.Answered> answer(Session session, String what)
      throws ConnectionFault {
    long deadlineNanos = System.nanoTime() + times.answer().toNanos();
    while (!stopping) {
      Optional<Session.Notice> notice = session.poll();
      if (notice.isPresent()) {
        if (notice.get() instanceof Session.Notice.Answered answered) {
          return Optional.of(answered);
        }
        take(notice.get());
        continue;
      }
      long leftNanos = deadlineNanos - System.nanoTime();
      if (leftNanos <= 0) {
        throw ConnectionFault.silent(broker, what);
      }
      LockSupport.parkNanos(this, leftNanos);
    }
    return Optional.empty();
  }

  /** Publishes messages as they come, until asked to stop. */
  private void serve(Session session) throws MqttException, ConnectionFault {
    boolean settled = false;
    while (!stopping) {
      pump(session);
      long ageNanos = System.nanoTime() - status.sinceNanos();
      if (!settled && ageNanos >= times.settled().toNanos()) {
        settled = true;
        shortLosses = 0;
        backOff.reset();
        log.settled(nowS()).ifPresent(line -> Logger.info(line));
      }
      if (open > 0 && overdueNanos() >= 0) {
        throw ConnectionFault.silent(broker, "acknowledgement");
      }
      long settleNanos = settled ? Long.MAX_VALUE : times.settled().toNanos() - ageNanos;
      long silenceNanos = open > 0 ? -overdueNanos() : Long.MAX_VALUE;
      LockSupport.parkNanos(this, Math.max(1, Math.min(settleNanos, silenceNanos)));
    }
  }

  /** Reads the notices, then sends what there is room for. Never waits. */
  private void pump(Session session) throws MqttException, ConnectionFault {
    for (Optional<Session.Notice> n = session.poll(); n.isPresent(); n = session.poll()) {
      take(n.get());
    }
    while (open < OPEN_MAX && openBytes < OPEN_BYTES_MAX) {
      Optional<Outbox.Entry> entry = outbox.take();
      if (entry.isEmpty()) {
        return;
      }
      publish(session, entry.get());
    }
  }

  private void take(Session.Notice notice) throws ConnectionFault {
    if (notice instanceof Session.Notice.Acknowledged acknowledged) {
      outbox.acknowledged(acknowledged.entry());
      open--;
      openBytes -= acknowledged.entry().payload().length;
      progressNanos = System.nanoTime();
    } else if (notice instanceof Session.Notice.Failed failed) {
      throw ConnectionFault.of(broker, failed.cause());
    }
  }

  private void publish(Session session, Outbox.Entry entry) throws MqttException {
    if (open == 0) {
      progressNanos = System.nanoTime();
    }
    session.publish(entry);
    open++;
    openBytes += entry.payload().length;
  }

  /** How long an acknowledgement is overdue, ns; negative if there is time left. */
  private long overdueNanos() {
    return System.nanoTime() - progressNanos - times.acknowledgement().toNanos();
  }

  /** Publishes the waiting messages, then {@code offline}, each for a limited time. */
  private void farewell(Session session) throws MqttException, ConnectionFault {
    flush(session, FLUSH);
    publish(session, word(presence.down()));
    flush(session, FAREWELL);
    session.disconnect();
  }

  private void flush(Session session, Duration limit) throws MqttException, ConnectionFault {
    long deadlineNanos = System.nanoTime() + limit.toNanos();
    while (true) {
      pump(session);
      long leftNanos = deadlineNanos - System.nanoTime();
      if (open == 0 || leftNanos <= 0) {
        return;
      }
      LockSupport.parkNanos(this, leftNanos);
    }
  }

  private void pause(Duration pause) {
    long deadlineNanos = System.nanoTime() + pause.toNanos();
    for (long leftNanos = pause.toNanos();
        leftNanos > 0 && !stopping;
        leftNanos = deadlineNanos - System.nanoTime()) {
      LockSupport.parkNanos(this, leftNanos);
    }
  }

  private Outbox.Entry word(String word) {
    return new Outbox.Entry(presence.topic(), word.getBytes(UTF_8), true);
  }

  private static double nowS() {
    return System.nanoTime() * 1e-9;
  }
}
