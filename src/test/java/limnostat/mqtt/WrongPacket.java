package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntFunction;

/**
 * A packet that no broker may send, and when it is sent.
 *
 * @param section of MQTT 3.1.1, by which it is refused
 * @param answered the client's packet in whose answer's place it comes; what came before it was
 *     answered as it should be
 * @param bytes by that packet's identifier
 */
public record WrongPacket(String name, String section, int answered, IntFunction<byte[]> bytes) {
  private static final byte[] ONE = {1};

  /** All kinds; the command's topic is what the client reads. */
  public static List<WrongPacket> all(String command) {
    List<WrongPacket> all = new ArrayList<>();
    insteadOfConnack(all);
    insteadOfSuback(all);
    insteadOfPuback(all, command);
    messages(all, command);
    anywhere(all);
    return all;
  }

  /** Keeps the rules up to the moment, sends it and then answers nothing. */
  public void serve(Caller caller) throws IOException {
    Caller.Packet packet = caller.next();
    while (packet.type() != answered) {
      caller.answer(packet);
      packet = caller.next();
    }
    caller.send(bytes.apply(packet.type() == Caller.CONNECT ? 0 : packet.id()));
    caller.listenOnly();
  }

  private static void insteadOfConnack(List<WrongPacket> all) {
    connack(all, "message before CONNACK", "3.2)", 0x32, 0, 1, 'a', 0, 1);
    connack(all, "PUBACK before CONNACK", "3.2)", 0x40, 0, 1);
    connack(all, "SUBACK before CONNACK", "3.2)", 0x90, 0, 1, 1);
    connack(all, "PINGRESP before CONNACK", "3.2)", 0xD0);
    connack(all, "CONNACK with flags", "2.2.2", 0x21, 0, 0);
    connack(all, "CONNACK without a code", "3.2.1", 0x20, 0);
    connack(all, "CONNACK without anything", "3.2.1", 0x20);
    connack(all, "CONNACK that is too long", "3.2.1", 0x20, 0, 0, 0);
    connack(all, "CONNACK with reserved bits", "3.2.2.1", 0x20, 2, 0);
    connack(all, "CONNACK with a kept session", "3.2.2.2", 0x20, 1, 0);
    connack(all, "CONNACK with code 6", "3.2.2.3", 0x20, 0, 6);
    connack(all, "CONNACK with code 255", "3.2.2.3", 0x20, 0, 255);
    connack(all, "CONNECT", "2.2.1", 0x10, 0, 4, 'M', 'Q', 'T', 'T', 4, 2, 0, 20, 0, 0);
    raw(all, "text of another protocol", "", Caller.CONNECT, text("HTTP/1.1 400 Bad Request\r\n"));
    raw(all, "a TLS alert", "", Caller.CONNECT, new byte[] {21, 3, 3, 0, 2, 2, 40});
    raw(all, "a length of five bytes", "2.2.3", Caller.CONNECT, lengthOf(5));
  }

  private static void insteadOfSuback(List<WrongPacket> all) {
    byId(all, "second CONNACK", "3.2)", Caller.SUBSCRIBE, id -> Frames.connack(0));
    byId(all, "SUBACK of another", "3.8.4", Caller.SUBSCRIBE, id -> Frames.suback(id + 1, 1));
    byId(all, "SUBACK of 0", "2.3.1", Caller.SUBSCRIBE, id -> Frames.suback(0, 1));
    byId(all, "SUBACK without codes", "3.8.4", Caller.SUBSCRIBE, id -> Frames.suback(id, 0));
    byId(all, "SUBACK of too many", "3.8.4", Caller.SUBSCRIBE, id -> Frames.suback(id, 2));
    byId(all, "SUBACK of 9000", "3.8.4", Caller.SUBSCRIBE, id -> Frames.suback(id, 9000));
    byId(all, "SUBACK of 1 byte", "3.8.4", Caller.SUBSCRIBE, id -> Frames.packet(0x90, id));
    byId(all, "SUBACK with flags", "2.2.2", Caller.SUBSCRIBE, id -> Frames.packet(0x92, 0, id, 1));
    byId(all, "SUBACK, QoS 2", "3.8.4", Caller.SUBSCRIBE, id -> Frames.packet(0x90, 0, id, 2));
    byId(all, "SUBACK, code 3", "3.9.3", Caller.SUBSCRIBE, id -> Frames.packet(0x90, 0, id, 3));
    byId(all, "SUBACK, 0x81", "3.9.3", Caller.SUBSCRIBE, id -> Frames.packet(0x90, 0, id, 0x81));
    byId(all, "UNSUBACK", "3.11", Caller.SUBSCRIBE, id -> Frames.packet(0xB0, 0, id));
    byId(all, "PUBACK to it", "3.4)", Caller.SUBSCRIBE, Frames::puback);
  }

  private static void insteadOfPuback(List<WrongPacket> all, String command) {
    byId(all, "PUBACK without an id", "3.4.1", Caller.PUBLISH, id -> Frames.packet(0x40));
    byId(all, "PUBACK of 1 byte", "3.4.1", Caller.PUBLISH, id -> Frames.packet(0x40, id));
    byId(all, "PUBACK too long", "3.4.1", Caller.PUBLISH, id -> Frames.packet(0x40, 0, id, 0));
    byId(all, "PUBACK with flags", "2.2.2", Caller.PUBLISH, id -> Frames.packet(0x4F, 0, id));
    byId(all, "PUBACK of 0", "2.3.1", Caller.PUBLISH, id -> Frames.puback(0));
    byId(all, "PUBACK of another", "3.4)", Caller.PUBLISH, id -> Frames.puback(0xFFFF - id));
    byId(
        all,
        "PUBACK twice",
        "3.4)",
        Caller.PUBLISH,
        id -> joined(Frames.puback(id), Frames.puback(id)));
    byId(all, "PUBREC to it", "4.3.3", Caller.PUBLISH, id -> Frames.packet(0x50, 0, id));
    byId(all, "PUBREL to it", "4.3.3", Caller.PUBLISH, id -> Frames.packet(0x62, 0, id));
    byId(all, "PUBCOMP to it", "4.3.3", Caller.PUBLISH, id -> Frames.packet(0x70, 0, id));
    byId(all, "SUBACK to it", "3.8.4", Caller.PUBLISH, id -> Frames.suback(id, 1));
    byId(all, "UNSUBACK to it", "3.11", Caller.PUBLISH, id -> Frames.packet(0xB0, 0, id));
    message(all, "id of 0", "2.3.1", Frames.message(2, command, 0, ONE));
  }

  private static void messages(List<WrongPacket> all, String command) {
    raw(
        all,
        "QoS 3, seven bytes",
        "3.3.1.2",
        Caller.PUBLISH,
        new byte[] {0x36, 5, 0, 1, 0x61, 0, 1});
    message(all, "QoS 3", "3.3.1.2", Frames.message(6, command, 7, ONE));
    message(all, "QoS 3, retained, duplicate", "3.3.1.2", Frames.message(15, command, 7, ONE));
    message(all, "QoS 2", "3.8.4", Frames.message(4, command, 7, ONE));
    message(all, "QoS 0, duplicate", "3.3.1.1", Frames.message(8, command, 0, ONE));
    message(all, "empty topic", "4.7.3", Frames.message(2, "", 7, ONE));
    message(all, "no topic", "3.3.2.1", Frames.packet(0x30));
    message(all, "half a length of a topic", "3.3.2.1", Frames.packet(0x30, 0));
    message(all, "topic beyond the packet", "3.3.2)", Frames.packet(0x30, 0, 9, 'a', 'b'));
    message(all, "no id", "3.3.2)", Frames.packet(0x32, 0, 2, 'a', 'b'));
    message(all, "half an id", "3.3.2)", Frames.packet(0x32, 0, 2, 'a', 'b', 0));
    message(all, "topic of 64 kB", "3.3.2.1", Frames.message(2, "a".repeat(0xFFFF), 7, ONE));
    message(all, "wildcard +", "3.3.2.1", Frames.message(2, "base/+/command", 7, ONE));
    message(all, "wildcard #", "3.3.2.1", Frames.message(2, "#", 7, ONE));
    message(all, "another topic", "3.3.2.1", Frames.message(2, "base/other", 7, ONE));
    message(all, "another topic, QoS 0", "3.3.2.1", Frames.message(0, "$SYS/x", 0, ONE));
    for (String bad : List.of("\u0000", "\u0001", "\u001f", "\u007f", "\u009f")) {
      message(all, "control " + (int) bad.charAt(0), "1.5.3", Frames.message(0, bad, 0, ONE));
    }
    for (int bad : new int[] {0xFDD0, 0xFDEF, 0xFFFE, 0xFFFF, 0x1FFFE, 0x10FFFF}) {
      String topic = Character.toString(bad);
      message(all, "noncharacter " + bad, "1.5.3", Frames.message(2, topic, 7, ONE));
    }
    // Characters as any other by the standard; the library fails on each of them.
    for (int odd : new int[] {0xFDF0, 0xFEFF, 0xFF01, 0xFFFD, 0x10000, 0x1F600, 0x1F4A7}) {
      String topic = "base/" + Character.toString(odd) + "/set";
      message(all, "character " + odd, "3.3.2.1", Frames.message(3, topic, 7, ONE));
    }
    for (String bad : List.of("\u00c0\u0080", "\u00ed\u00a0\u0080", "\u00e2\u0082", "\u00ff")) {
      byte[] topic = bad.getBytes(ISO_8859_1);
      message(all, "no UTF-8 " + Arrays.toString(topic), "1.5.3", Frames.message(0, topic, 0, ONE));
    }
  }

  private static void anywhere(List<WrongPacket> all) {
    message(all, "type 0", "2.2.1", Frames.packet(0x00, 0));
    message(all, "type 15", "2.2.1", Frames.packet(0xF0, 0));
    message(all, "SUBSCRIBE", "2.2.1", Frames.packet(0x82, 0, 1, 0, 1, '#', 1));
    message(all, "UNSUBSCRIBE", "2.2.1", Frames.packet(0xA2, 0, 1, 0, 1, '#'));
    message(all, "PINGREQ", "2.2.1", Frames.packet(0xC0));
    message(all, "DISCONNECT", "2.2.1", Frames.packet(0xE0));
    message(all, "PINGRESP that nobody asked for", "3.13)", Frames.PINGRESP);
    message(all, "PINGRESP with flags", "2.2.2", Frames.packet(0xD1));
    message(all, "PINGRESP with content", "3.13.1", Frames.packet(0xD0, 0));
    for (int first : new int[] {0x32, 0x40, 0x90, 0xD0}) {
      byte[] long4 = lengthOf(5);
      long4[0] = (byte) first;
      raw(all, "a length of five bytes, " + first, "", Caller.PUBLISH, long4);
      raw(
          all,
          "256 MB, " + first,
          "",
          Caller.PUBLISH,
          new byte[] {(byte) first, -1, -1, -1, 0x7F, -1, -1, -1, -1});
    }
  }

  private static byte[] lengthOf(int bytes) {
    byte[] packet = new byte[bytes + 1];
    Arrays.fill(packet, (byte) 0xFF);
    packet[0] = 0x20;
    packet[bytes] = 1;
    return packet;
  }

  private static byte[] text(String text) {
    return text.getBytes(UTF_8);
  }

  private static byte[] joined(byte[] a, byte[] b) {
    byte[] both = Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, both, a.length, b.length);
    return both;
  }

  private static void connack(
      List<WrongPacket> all, String name, String section, int first, int... rest) {
    raw(all, name, section, Caller.CONNECT, Frames.packet(first, rest));
  }

  private static void message(List<WrongPacket> all, String name, String section, byte[] bytes) {
    raw(all, name, section, Caller.PUBLISH, bytes);
  }

  private static void byId(
      List<WrongPacket> all, String name, String section, int at, IntFunction<byte[]> bytes) {
    all.add(new WrongPacket(name, section, at, bytes));
  }

  private static void raw(
      List<WrongPacket> all, String name, String section, int at, byte[] bytes) {
    all.add(new WrongPacket(name, section, at, id -> bytes));
  }
}
