package limnostat.mqtt;

import java.util.Arrays;

/**
 * The head of a packet, read from a stream that may arrive in pieces of any size. It is the fixed
 * header (MQTT 3.1.1, section 2.2) and what follows it: for a message everything before its
 * payload, for a CONNECT nothing. One object reads one packet after another.
 */
final class PacketHead {
  private static final int LENGTH_BYTES_MAX = 4;

  /** Position of the topic; the two bytes before it are its length. */
  private static final int TOPIC_AT = 2;

  private static final int ID_BYTES = 2;

  private final int topicBytesMax;

  private int fixedBytes;
  private boolean fixed;
  private int first;
  private int length;
  private byte[] rest = new byte[64];
  private int restBytes;
  private int wanted;

  /**
   * @param topicBytesMax longest topic of a message; a longer one is refused as soon as its length
   *     is read
   */
  PacketHead(int topicBytesMax) {
    this.topicBytesMax = topicBytesMax;
  }

  /** Prepares for the next packet. */
  void begin() {
    fixedBytes = 0;
    fixed = false;
    length = 0;
    restBytes = 0;
    wanted = 0;
  }

  /** Takes the next byte. */
  void add(int b) throws NotMqtt {
    if (fixed) {
      if (restBytes == rest.length) {
        rest = Arrays.copyOf(rest, 2 * rest.length);
      }
      rest[restBytes++] = (byte) b;
      if (restBytes == wanted) {
        wanted = wanted();
      }
    } else {
      addFixed(b);
    }
  }

  private void addFixed(int b) throws NotMqtt {
    if (fixedBytes++ == 0) {
      first = b;
      return;
    }
    length |= (b & 0x7F) << (7 * (fixedBytes - 2));
    if (b < 0x80) {
      fixed = true;
      wanted = wanted();
    } else if (fixedBytes > LENGTH_BYTES_MAX) {
      throw new NotMqtt("a length of more than 4 bytes", "2.2.3");
    }
  }

  /** How much of the rest belongs to the head, as far as is known so far. */
  private int wanted() throws NotMqtt {
    if (is(PacketType.CONNECT)) {
      return 0;
    }
    if (!message()) {
      return length;
    }
    if (restBytes < TOPIC_AT) {
      return Math.min(length, TOPIC_AT);
    }
    if (topicBytes() > topicBytesMax) {
      throw new NotMqtt("a message on a topic that was not asked for", "3.3.2.1");
    }
    int bytes = TOPIC_AT + topicBytes() + (qos() > 0 ? ID_BYTES : 0);
    if (bytes > length) {
      throw new NotMqtt("a message that ends within its topic or its identifier", "3.3.2");
    }
    return bytes;
  }

  /** Whether the fixed header is complete. */
  boolean fixed() {
    return fixed;
  }

  /** Whether the whole head is complete. */
  boolean whole() {
    return fixed && restBytes == wanted;
  }

  int first() {
    return first;
  }

  int flags() {
    return first & 0x0F;
  }

  /** Remaining length: what follows the fixed header, bytes. */
  int length() {
    return length;
  }

  private boolean is(PacketType type) {
    return PacketType.of(first).filter(type::equals).isPresent();
  }

  boolean message() {
    return is(PacketType.PUBLISH);
  }

  int qos() {
    return first >> 1 & 3;
  }

  boolean duplicate() {
    return (first & 8) != 0;
  }

  /** What was read after the fixed header. */
  byte[] rest() {
    return Arrays.copyOf(rest, restBytes);
  }

  int restBytes() {
    return restBytes;
  }

  int topicBytes() {
    return number(0);
  }

  byte[] topic() {
    return Arrays.copyOfRange(rest, TOPIC_AT, TOPIC_AT + topicBytes());
  }

  /** Packet identifier: after the topic in a message, first in other packets (section 2.3.1). */
  int id() {
    return number(message() ? TOPIC_AT + topicBytes() : 0);
  }

  /** The byte at a position in the rest. */
  int at(int place) {
    return rest[place] & 0xFF;
  }

  /** A number of two bytes, most significant first (section 1.5.2). */
  int number(int place) {
    return at(place) << 8 | at(place + 1);
  }
}
