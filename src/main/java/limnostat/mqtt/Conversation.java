package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * The rules of MQTT 3.1.1 (OASIS Standard, 29 October 2014) for what a broker sends to this client.
 * The client starts a clean session, asks for QoS 1 at most and never unsubscribes. Packets that
 * break the rules must not reach the library: some kill one of its threads, and others leak memory
 * or a thread each time. Section numbers refer to the standard.
 */
final class Conversation {
  /**
   * Maximum number of messages that the library has not acknowledged; the next one waits. The
   * library queues acknowledgements without a bound, so a broker that sends and never reads would
   * fill the memory. A broker with its own window has 20 in flight by default (engineering
   * judgement).
   */
  static final int UNACKNOWLEDGED_MAX = 64;

  private static final int CONNACK_BYTES = 2;
  private static final int PUBACK_BYTES = 2;

  /** Highest return code of CONNACK, table 3.1: 0 to 5 are valid, the rest is reserved. */
  private static final int RETURN_CODE_MAX = 5;

  /** Return code of SUBACK, section 3.9.3. */
  private static final int SUBSCRIPTION_REFUSED = 0x80;

  private final Set<String> topics;
  private final int topicBytesMax;

  private boolean connectSent;
  private boolean answered;
  private boolean connected;
  private boolean over;
  private Optional<NotMqtt> broken = Optional.empty();
  private final Map<Integer, Integer> subscriptions = new HashMap<>();
  private final Set<Integer> published = new HashSet<>();
  private int pings;
  private int unacknowledged;

  /**
   * @param topics the topics that will be subscribed to, each in full
   */
  Conversation(Collection<String> topics) {
    this.topics = Set.copyOf(topics);
    this.topicBytesMax = topics.stream().mapToInt(t -> t.getBytes(UTF_8).length).max().orElse(0);
  }

  /** Length of the longest subscribed topic, bytes. */
  int topicBytesMax() {
    return topicBytesMax;
  }

  /** Notes a packet that is being sent now. */
  synchronized void sent(PacketHead head) {
    PacketType type = PacketType.of(head.first()).orElseThrow();
    switch (type) {
      case CONNECT -> connectSent = true;
      case PUBLISH -> {
        if (head.qos() > 0) {
          published.add(head.id());
        }
      }
      case SUBSCRIBE -> subscriptions.put(head.id(), filters(head));
      case PINGREQ -> pings++;
      case PUBACK -> unacknowledged--;
      default -> {}
    }
    notifyAll();
  }

  /** Number of filters in a SUBSCRIBE, section 3.8.3. Each is a string and a byte. */
  private static int filters(PacketHead subscribe) {
    int filters = 0;
    for (int at = 2; at < subscribe.restBytes(); at += 2 + subscribe.number(at) + 1) {
      filters++;
    }
    return filters;
  }

  /**
   * Waits until the next packet may be read. CONNECT must have been sent, since a broker may send
   * nothing before it. The library must also have acknowledged enough of the received messages.
   *
   * @return false if that did not happen in time
   */
  synchronized boolean awaitTurn(long limitMs) {
    long endNanos = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(limitMs);
    try {
      while (!over && !(connectSent && unacknowledged < UNACKNOWLEDGED_MAX)) {
        long leftNanos = endNanos - System.nanoTime();
        if (leftNanos <= 0) {
          return false;
        }
        TimeUnit.NANOSECONDS.timedWait(this, leftNanos);
      }
      return true;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /** The connection is closed; releases anyone who waits. */
  synchronized void end() {
    over = true;
    notifyAll();
  }

  /** Notes the packet that broke a rule. */
  synchronized void broken(NotMqtt by) {
    broken = Optional.of(by);
  }

  /** The violation, if a rule was broken. */
  synchronized Optional<NotMqtt> broken() {
    return broken;
  }

  /** Checks the fixed header of a packet before the rest of the packet is read. */
  synchronized void begins(PacketHead head) throws NotMqtt {
    PacketType type =
        PacketType.of(head.first())
            .orElseThrow(() -> new NotMqtt("a packet of a reserved type", "2.2.1"));
    if (!type.fromBroker()) {
      throw new NotMqtt("a " + type + ", which only a client sends", "2.2.1");
    }
    if (type == PacketType.PUBLISH) {
      messageFlags(head);
    } else if (head.flags() != type.flags()) {
      throw new NotMqtt("a " + type + " with flags that are reserved", "2.2.2");
    }
    if (type == PacketType.CONNACK) {
      if (answered) {
        throw new NotMqtt("a second CONNACK", "3.2");
      }
    } else if (!connected) {
      throw new NotMqtt("a " + type + " before the connection was accepted", "3.2");
    }
    switch (type) {
      case CONNACK -> length(head, type, CONNACK_BYTES, "3.2.1");
      case PUBACK -> length(head, type, PUBACK_BYTES, "3.4.1");
      case PINGRESP -> length(head, type, 0, "3.13.1");
      case SUBACK -> {
        if (subscriptions.values().stream().noneMatch(filters -> head.length() == 2 + filters)) {
          throw new NotMqtt("a SUBACK that answers no subscription of so many topics", "3.8.4");
        }
      }
      case PUBLISH -> {
        if (head.length() < 2) {
          throw new NotMqtt("a message without a topic", "3.3.2.1");
        }
      }
      default -> throw new NotMqtt("a " + type + ", which answers nothing of ours", section(type));
    }
  }

  private static String section(PacketType type) {
    return type == PacketType.UNSUBACK ? "3.11" : "4.3.3";
  }

  private static void length(PacketHead head, PacketType type, int bytes, String section)
      throws NotMqtt {
    if (head.length() != bytes) {
      throw new NotMqtt("a " + type + " of a wrong length", section);
    }
  }

  private static void messageFlags(PacketHead head) throws NotMqtt {
    switch (head.qos()) {
      case 0 -> {
        if (head.duplicate()) {
          throw new NotMqtt("a message of QoS 0 that is marked as a duplicate", "3.3.1.1");
        }
      }
      case 1 -> {}
      case 2 -> throw new NotMqtt("a message of QoS 2, where 1 was asked for", "3.8.4");
      default -> throw new NotMqtt("a message of QoS 3, which there is not", "3.3.1.2");
    }
  }

  /** Checks the complete head of a packet that {@link #begins} has accepted. */
  synchronized void received(PacketHead head) throws NotMqtt {
    switch (PacketType.of(head.first()).orElseThrow()) {
      case CONNACK -> connack(head);
      case PUBLISH -> message(head);
      case PUBACK -> {
        identifier(head);
        if (!published.remove(head.id())) {
          throw new NotMqtt("a PUBACK for a message that was not sent", "3.4");
        }
      }
      case SUBACK -> suback(head);
      case PINGRESP -> {
        if (pings == 0) {
          throw new NotMqtt("a PINGRESP that was not asked for", "3.13");
        }
        pings--;
      }
      default -> throw new IllegalStateException("passed: " + head.first());
    }
  }

  private void connack(PacketHead head) throws NotMqtt {
    int flags = head.at(0);
    int code = head.at(1);
    answered = true;
    if (flags > 1) {
      throw new NotMqtt("a CONNACK with flags that are reserved", "3.2.2.1");
    }
    if (flags == 1) {
      throw new NotMqtt("a session that is said to be kept, where a clean one began", "3.2.2.2");
    }
    if (code > RETURN_CODE_MAX) {
      throw new NotMqtt("a CONNACK with a return code that is reserved", "3.2.2.3");
    }
    connected = code == 0;
  }

  private void suback(PacketHead head) throws NotMqtt {
    identifier(head);
    Integer filters = subscriptions.remove(head.id());
    if (filters == null || head.length() != 2 + filters) {
      throw new NotMqtt("a SUBACK that answers no subscription", "3.8.4");
    }
    for (int at = 2; at < head.length(); at++) {
      int code = head.at(at);
      if (code == 2) {
        throw new NotMqtt("a QoS higher than the one that was asked for", "3.8.4");
      }
      if (code > 2 && code != SUBSCRIPTION_REFUSED) {
        throw new NotMqtt("a SUBACK with a return code that is reserved", "3.9.3");
      }
    }
  }

  private void message(PacketHead head) throws NotMqtt {
    String topic = text(head.topic());
    if (topic.isEmpty()) {
      throw new NotMqtt("a message on an empty topic", "4.7.3");
    }
    if (topic.indexOf('+') >= 0 || topic.indexOf('#') >= 0) {
      throw new NotMqtt("a message on a topic with a wildcard", "3.3.2.1");
    }
    if (!topics.contains(topic)) {
      throw new NotMqtt("a message on a topic that was not asked for", "3.3.2.1");
    }
    if (head.qos() > 0) {
      identifier(head);
      unacknowledged++;
    }
  }

  private static void identifier(PacketHead head) throws NotMqtt {
    if (head.id() == 0) {
      throw new NotMqtt("a packet identifier of 0", "2.3.1");
    }
  }

  /**
   * Refuses what section 1.5.3 forbids in a string, and what it lets a receiver close the
   * connection for.
   */
  private static String text(byte[] bytes) throws NotMqtt {
    String text;
    try {
      text = UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    } catch (CharacterCodingException e) {
      throw new NotMqtt("a topic that is not UTF-8", "1.5.3");
    }
    if (text.codePoints().anyMatch(Conversation::forbidden)) {
      throw new NotMqtt("a topic with a control character or a noncharacter", "1.5.3");
    }
    return text;
  }

  private static boolean forbidden(int c) {
    boolean noncharacter = (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
    return Character.isISOControl(c) || noncharacter;
  }
}
