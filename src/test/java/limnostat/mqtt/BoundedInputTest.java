package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.SocketTimeoutException;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Packets as in MQTT 3.1.1, sections 2.2 (fixed header) and 2.2.3 (remaining length). */
class BoundedInputTest {
  private static final int MAX = BoundedInput.PACKET_BYTES_MAX;
  private static final int PUBLISH = 0x32;
  private static final int SUBACK = 0x90;

  private static byte[] packet(int first, int length) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(first);
    int rest = length;
    do {
      out.write(rest % 128 | (rest >= 128 ? 0x80 : 0));
      rest /= 128;
    } while (rest > 0);
    for (int i = 0; i < length; i++) {
      out.write(i * 31);
    }
    return out.toByteArray();
  }

  private static byte[] joined(byte[]... packets) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] packet : packets) {
      out.writeBytes(packet);
    }
    return out.toByteArray();
  }

  private static byte[] passed(byte[]... packets) throws IOException {
    return new BoundedInput(new ByteArrayInputStream(joined(packets))).readAllBytes();
  }

  /** Of a length that the standard names as an end of a number of bytes, and around the bound. */
  @Test
  void whatFitsIsPassedOnAsItIs() throws IOException {
    for (int length : new int[] {0, 1, 127, 128, 16_383, 16_384, MAX - 1, MAX}) {
      byte[] all = joined(packet(PUBLISH, length), packet(SUBACK, 3), packet(0xD0, 0));
      assertArrayEquals(all, passed(all), length + " bytes");
    }
  }

  @Test
  void ofALongMessageTheBeginningIsPassedOnAndWhatFollowsIsWhole() throws IOException {
    for (int length : new int[] {MAX + 1, 2_097_151, 2_097_152, 9_000_000}) {
      byte[] cut = packet(PUBLISH, MAX);
      assertArrayEquals(
          joined(cut, packet(SUBACK, 3), cut, packet(PUBLISH, 7)),
          passed(
              packet(PUBLISH, length),
              packet(SUBACK, 3),
              packet(PUBLISH, length),
              packet(PUBLISH, 7)),
          length + " bytes");
    }
  }

  /** Bytes come in any pieces, and a time limit may fall between any two of them. */
  @Test
  void piecesAndTimeLimitsChangeNothing() throws IOException {
    byte[] all =
        joined(
            packet(PUBLISH, 200),
            packet(PUBLISH, MAX + 70_000),
            packet(0x40, 2),
            packet(PUBLISH, 5));
    byte[] expected =
        joined(packet(PUBLISH, 200), packet(PUBLISH, MAX), packet(0x40, 2), packet(PUBLISH, 5));
    for (int seed = 0; seed < 20; seed++) {
      Random random = new Random(seed);
      InputStream in = new BoundedInput(new Hesitant(all, random));
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
    IOException e = assertThrows(IOException.class, () -> passed(packet(SUBACK, MAX + 1)));
    assertTrue(e.getMessage().contains("packet type 9"), e.getMessage());
  }

  @Test
  void aLengthOfFiveBytesIsNotMqtt() {
    byte[] five = {PUBLISH, -1, -1, -1, -1, 1};
    assertThrows(IOException.class, () -> passed(five));
  }

  @Test
  void anEndInTheMiddleIsAnEnd() throws IOException {
    byte[] whole = packet(PUBLISH, MAX + 100);
    for (int kept : new int[] {0, 1, 2, 4, 10, MAX, MAX + 50}) {
      byte[] cut = Arrays.copyOf(whole, kept);
      byte[] got = passed(cut);
      assertEquals(kept < 4 ? 0 : Math.min(kept, 4 + MAX), got.length, kept + " bytes");
    }
  }
}
