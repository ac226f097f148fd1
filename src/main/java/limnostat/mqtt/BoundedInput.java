package limnostat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;

/**
 * What comes from the broker, with no packet longer than the library may take into memory. The
 * library allocates a whole packet as soon as it has read its length, up to 256 MB (MQTT 3.1.1,
 * section 2.2.3), so one message, or five bytes of a bad broker, would end the process.
 *
 * <p>Of a message that is longer only the beginning is passed on, with a length that fits, and the
 * rest is read and forgotten: it is acknowledged and refused as every command that is too long, and
 * the connection stays. No other packet from a broker is ever as long.
 */
final class BoundedInput extends InputStream {
  /** A topic has at most 64 kB, so more of the payload is left than a command may have. */
  static final int PACKET_BYTES_MAX = 1 << 17;

  private static final int PUBLISH = 3;
  private static final int LENGTH_BYTES_MAX = 4;

  private final InputStream broker;
  private final byte[] forgotten = new byte[8192];

  /** Of the header that is being read: bytes so far, and the length by them. */
  private int headerBytes;

  private int first;
  private int length;

  /** To be passed on: what is left of the header as it is told, of the packet, and beyond it. */
  private byte[] header = new byte[0];

  private int headerAt;
  private int left;
  private int beyond;

  BoundedInput(InputStream broker) {
    this.broker = broker;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  /** A read that a time limit ends loses nothing: the next one goes on from there. */
  @Override
  public int read(byte[] to, int offset, int most) throws IOException {
    if (most == 0) {
      return 0;
    }
    if (headerAt == header.length && left == 0 && !next()) {
      return -1;
    }
    if (headerAt < header.length) {
      int n = Math.min(most, header.length - headerAt);
      System.arraycopy(header, headerAt, to, offset, n);
      headerAt += n;
      return n;
    }
    int n = broker.read(to, offset, Math.min(most, left));
    left -= Math.max(0, n);
    return n;
  }

  /** Forgets what is beyond the bound, then reads a header; false at the end of the stream. */
  private boolean next() throws IOException {
    while (beyond > 0) {
      int n = broker.read(forgotten, 0, Math.min(forgotten.length, beyond));
      if (n < 0) {
        return false;
      }
      beyond -= n;
    }
    int b;
    do {
      b = broker.read();
      if (b < 0) {
        return false;
      }
      if (headerBytes == 0) {
        first = b;
        length = 0;
      } else {
        length |= (b & 0x7F) << (7 * (headerBytes - 1));
      }
      headerBytes++;
    } while (headerBytes == 1 || (b > 0x7F && headerBytes <= LENGTH_BYTES_MAX));
    headerBytes = 0;
    if (b > 0x7F) {
      throw new IOException("what the broker sends is not MQTT: a length of more than 4 bytes");
    }
    if (length > PACKET_BYTES_MAX && first >> 4 != PUBLISH) {
      throw new IOException(
          "the broker sent "
              + length
              + " bytes of packet type "
              + (first >> 4)
              + ", which no broker does");
    }
    left = Math.min(length, PACKET_BYTES_MAX);
    beyond = length - left;
    header = header();
    headerAt = 0;
    return true;
  }

  private byte[] header() {
    byte[] bytes = new byte[1 + LENGTH_BYTES_MAX];
    bytes[0] = (byte) first;
    int n = 1;
    for (int rest = left; n == 1 || rest > 0; rest >>= 7) {
      bytes[n++] = (byte) ((rest & 0x7F) | (rest > 0x7F ? 0x80 : 0));
    }
    return Arrays.copyOf(bytes, n);
  }
}
