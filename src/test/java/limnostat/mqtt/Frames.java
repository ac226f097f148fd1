package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;

/** Packets as a broker sends them: MQTT 3.1.1, chapters 2 and 3. */
final class Frames {
  static final byte[] PINGRESP = {(byte) 0xD0, 0};

  private Frames() {}

  static byte[] packet(int first, byte[] rest) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(first);
    int left = rest.length;
    do {
      out.write(left % 128 | (left >= 128 ? 0x80 : 0));
      left /= 128;
    } while (left > 0);
    out.writeBytes(rest);
    return out.toByteArray();
  }

  static byte[] packet(int first, int... rest) {
    byte[] bytes = new byte[rest.length];
    for (int i = 0; i < rest.length; i++) {
      bytes[i] = (byte) rest[i];
    }
    return packet(first, bytes);
  }

  static byte[] connack(int code) {
    return packet(0x20, 0, code);
  }

  static byte[] puback(int id) {
    return packet(0x40, id >> 8, id & 0xFF);
  }

  static byte[] suback(int id, int topics) {
    byte[] rest = new byte[2 + topics];
    rest[0] = (byte) (id >> 8);
    rest[1] = (byte) id;
    java.util.Arrays.fill(rest, 2, rest.length, (byte) 1);
    return packet(0x90, rest);
  }

  /**
   * @param flags as in the first byte; with QoS 0 there is no id
   */
  static byte[] message(int flags, String topic, int id, byte[] payload) {
    return message(flags, topic.getBytes(UTF_8), id, payload);
  }

  static byte[] message(int flags, byte[] topic, int id, byte[] payload) {
    ByteArrayOutputStream rest = new ByteArrayOutputStream();
    rest.write(topic.length >> 8);
    rest.write(topic.length);
    rest.writeBytes(topic);
    if ((flags & 6) != 0) {
      rest.write(id >> 8);
      rest.write(id);
    }
    rest.writeBytes(payload);
    return packet(0x30 | flags, rest.toByteArray());
  }
}
