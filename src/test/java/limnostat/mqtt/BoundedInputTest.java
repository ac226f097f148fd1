package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.SocketTimeoutException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.eclipse.paho.client.mqttv3.internal.wire.MqttPublish;
import org.eclipse.paho.client.mqttv3.internal.wire.MqttWireMessage;
import org.junit.jupiter.api.Test;

/** Packets as in MQTT 3.1.1, sections 2.2 (fixed header) and 2.2.3 (remaining length). */
class BoundedInputTest {
  private static final int MAX = BoundedInput.PACKET_BYTES_MAX;
  private static final byte[] CONNECT =
      Frames.packet(0x10, 0, 4, 'M', 'Q', 'T', 'T', 4, 2, 0, 9, 0, 0);
  private static final byte[] SUBSCRIBE = Frames.packet(0x82, 0, 1, 0, 1, 't', 1);
  private static final byte[] PINGREQ = Frames.packet(0xC0);

  /** What answers the first two of those. */
  private static final byte[] BEGUN = joined(Frames.connack(0), Frames.suback(1, 1));

  /** A message that is not acknowledged. */
  private static byte[] message(int length) {
    byte[] payload = new byte[length - 3];
    for (int i = 0; i < payload.length; i++) {
      payload[i] = (byte) (i * 31);
    }
    return Frames.message(0, "t", 0, payload);
  }

  /** Of a client that has asked for one topic, sent two messages and asked for a sign of life. */
  private static Conversation conversation() throws IOException {
    Conversation conversation = new Conversation(List.of("t"));
    send(
        conversation,
        CONNECT,
        SUBSCRIBE,
        Frames.message(2, "out", 7, new byte[300]),
        Frames.message(3, "out", 300, new byte[0]),
        PINGREQ);
    return conversation;
  }

  private static void send(Conversation conversation, byte[]... packets) throws IOException {
    try (OutputStream out = new SentPackets(OutputStream.nullOutputStream(), conversation)) {
      for (byte b : joined(packets)) {
        out.write(b);
      }
    }
  }

  private static byte[] joined(byte[]... packets) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] packet : packets) {
      out.writeBytes(packet);
    }
    return out.toByteArray();
  }

  private static byte[] passed(byte[]... packets) throws IOException {
    byte[] all = joined(BEGUN, joined(packets));
    byte[] passed = new BoundedInput(new ByteArrayInputStream(all), conversation()).readAllBytes();
    assertArrayEquals(BEGUN, Arrays.copyOf(passed, BEGUN.length));
    return Arrays.copyOfRange(passed, BEGUN.length, passed.length);
  }

  /** Of a length that the standard names as an end of a number of bytes, and around the bound. */
  @Test
  void whatFitsIsPassedOnAsItIs() throws IOException {
    for (int length : new int[] {3, 4, 127, 128, 16_383, 16_384, MAX - 1, MAX}) {
      byte[] all = joined(message(length), Frames.puback(300), Frames.PINGRESP, Frames.puback(7));
      assertArrayEquals(all, passed(all), length + " bytes");
    }
  }

  @Test
  void ofALongMessageTheBeginningIsPassedOnAndWhatFollowsIsWhole() throws IOException {
    for (int length : new int[] {MAX + 1, 2_097_151, 2_097_152, 9_000_000}) {
      byte[] cut = message(MAX);
      assertArrayEquals(
          joined(cut, Frames.puback(7), cut, message(7)),
          passed(message(length), Frames.puback(7), message(length), message(7)),
          length + " bytes");
    }
  }

  /** Bytes come in any pieces, and a time limit may fall between any two of them. */
  @Test
  void piecesAndTimeLimitsChangeNothing() throws IOException {
    byte[] all = joined(BEGUN, message(200), message(MAX + 70_000), Frames.puback(7), message(5));
    byte[] expected = joined(BEGUN, message(200), message(MAX), Frames.puback(7), message(5));
    for (int seed = 0; seed < 20; seed++) {
      Random random = new Random(seed);
      InputStream in = new BoundedInput(new Hesitant(all, random), conversation());
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      byte[] piece = new byte[4096];
      int n = 0;
      while (n >= 0) {
        try {
          n = random.nextBoolean() ? one(in, piece) : in.read(piece, 0, 1 + random.nextInt(4096));
          out.write(piece, 0, Math.max(0, n));
        } catch (SocketTimeoutException e) {
          n = 0;
        }
      }
      assertArrayEquals(expected, out.toByteArray(), "seed " + seed);
    }
  }

  private static int one(InputStream in, byte[] to) throws IOException {
    int b = in.read();
    to[0] = (byte) b;
    return b < 0 ? -1 : 1;
  }

  private static final class Hesitant extends InputStream {
    private final byte[] bytes;
    private final Random random;
    private int at;

    Hesitant(byte[] bytes, Random random) {
      this.bytes = bytes;
      this.random = random;
    }

    @Override
    public int read() throws IOException {
      hesitate();
      return at == bytes.length ? -1 : bytes[at++] & 0xFF;
    }

    @Override
    public int read(byte[] to, int offset, int most) throws IOException {
      hesitate();
      if (at == bytes.length) {
        return -1;
      }
      int n = Math.min(Math.min(most, bytes.length - at), 1 + random.nextInt(3000));
      System.arraycopy(bytes, at, to, offset, n);
      at += n;
      return n;
    }

    private void hesitate() throws SocketTimeoutException {
      if (random.nextInt(3) == 0) {
        throw new SocketTimeoutException("a time limit");
      }
    }
  }

  @Test
  void noOtherPacketIsThatLong() {
    IOException e =
        assertThrows(NotMqtt.class, () -> passed(Frames.packet(0x90, new byte[MAX + 1])));
    assertTrue(e.getMessage().contains("SUBACK"), e.getMessage());
  }

  @Test
  void aLengthOfFiveBytesIsNotMqtt() {
    byte[] five = {0x32, -1, -1, -1, -1, 1};
    assertThrows(NotMqtt.class, () -> passed(five));
  }

  @Test
  void anEndInTheMiddleIsAnEnd() throws IOException {
    byte[] whole = message(MAX + 100);
    int head = 7; // fixed header and topic
    for (int kept : new int[] {0, 1, 2, 4, 6, 10, MAX, MAX + 50}) {
      byte[] got = passed(Arrays.copyOf(whole, kept));
      assertEquals(kept < head ? 0 : Math.min(kept, 4 + MAX), got.length, kept + " bytes");
    }
  }

  /** A broker has nothing to say before; and the library's own threads run by then. */
  @Test
  void nothingIsReadBeforeTheConnectHasGoneOut() throws IOException {
    Conversation conversation = new Conversation(List.of("t"));
    InputStream in = new BoundedInput(new ByteArrayInputStream(BEGUN), conversation);
    assertThrows(SocketTimeoutException.class, in::read);
    send(conversation, CONNECT);
    assertEquals(0x20, in.read());
  }

  /** A broker that sends and never reads must not fill the memory with acknowledgements. */
  @Test
  void whatIsNotAcknowledgedHoldsWhatFollows() throws IOException {
    Conversation conversation = conversation();
    int most = Conversation.UNACKNOWLEDGED_MAX;
    byte[] one = Frames.message(2, "t", 9, new byte[1]);
    byte[][] many = new byte[most + 2][];
    Arrays.fill(many, one);
    InputStream in =
        new BoundedInput(new ByteArrayInputStream(joined(BEGUN, joined(many))), conversation);
    assertEquals(
        BEGUN.length + most * one.length, in.readNBytes(BEGUN.length + most * one.length).length);
    assertThrows(SocketTimeoutException.class, in::read);
    send(conversation, Frames.puback(9));
    assertEquals(one.length, in.readNBytes(one.length).length);
    assertThrows(SocketTimeoutException.class, in::read);
    conversation.end();
    assertEquals(one.length, in.readNBytes(one.length).length, "closed: nobody waits");
  }

  /**
   * Whatever is done to a stream of packets, what is passed on is something that the library reads
   * without a word, on the topic that was asked for.
   */
  @Test
  void theLibraryReadsWhateverIsPassedOn() throws IOException {
    Random random = new Random(20);
    int refused = 0;
    int passed = 0;
    for (int i = 0; i < 150_000; i++) {
      byte[] stream = mutated(joined(BEGUN, sample(random)), random);
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      try {
        new BoundedInput(new ByteArrayInputStream(stream), conversation()).transferTo(out);
      } catch (NotMqtt e) {
        refused++;
      }
      for (byte[] packet : packets(out.toByteArray())) {
        passed++;
        readByTheLibrary(packet, "trial " + i + ": " + Arrays.toString(stream));
      }
    }
    assertTrue(refused > 50_000 && passed > 50_000, refused + " refused, " + passed + " passed");
  }

  private static byte[] sample(Random random) {
    List<byte[]> packets =
        new ArrayList<>(
            List.of(
                Frames.message(random.nextInt(2), "t", 0, new byte[random.nextInt(5)]),
                Frames.message(2 + random.nextInt(2), "t", 1 + random.nextInt(9), new byte[1]),
                Frames.puback(random.nextBoolean() ? 7 : 300),
                Frames.PINGRESP));
    java.util.Collections.shuffle(packets, random);
    return joined(packets.toArray(byte[][]::new));
  }

  private static byte[] mutated(byte[] stream, Random random) {
    byte[] bytes = stream;
    for (int n = random.nextInt(4); n > 0; n--) {
      int at = random.nextInt(bytes.length);
      int to = Math.min(bytes.length, at + 1 + random.nextInt(4));
      byte[] before = Arrays.copyOf(bytes, at);
      byte[] after = Arrays.copyOfRange(bytes, to, bytes.length);
      byte[] between = Arrays.copyOfRange(bytes, at, to);
      switch (random.nextInt(5)) {
        case 0 -> between[0] ^= (byte) (1 << random.nextInt(8));
        case 1 -> random.nextBytes(between);
        case 2 -> between = new byte[0];
        case 3 -> between = joined(between, between);
        default -> after = new byte[0];
      }
      bytes = joined(before, between, after);
      if (bytes.length == 0) {
        return bytes;
      }
    }
    return bytes;
  }

  /** The whole packets of a stream. */
  private static List<byte[]> packets(byte[] stream) {
    List<byte[]> packets = new ArrayList<>();
    int at = 0;
    while (at + 1 < stream.length) {
      int length = 0;
      int n = 1;
      int b;
      do {
        b = stream[at + n] & 0xFF;
        length |= (b & 0x7F) << (7 * (n - 1));
        n++;
      } while (b >= 0x80);
      if (at + n + length > stream.length) {
        return packets;
      }
      packets.add(Arrays.copyOfRange(stream, at, at + n + length));
      at += n + length;
    }
    return packets;
  }

  private static void readByTheLibrary(byte[] packet, String trial) {
    try {
      MqttWireMessage read = MqttWireMessage.createWireMessage(packet);
      if (read instanceof MqttPublish message) {
        assertEquals("t", message.getTopicName(), trial);
        assertTrue(message.getMessage().getQos() < 2, trial);
        assertFalse(message.getMessage().getQos() == 1 && message.getMessageId() == 0, trial);
      }
    } catch (Exception e) {
      throw new AssertionError(trial, e);
    }
  }
}
