package limnostat.mqtt;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.SocketTimeoutException;
import java.util.Arrays;

/**
 * The input from the broker, before the library sees it. Anything that violates the standard ends
 * the connection here ({@link Conversation}).
 *
 * <p>Packets are cut to a length that the library can safely hold in memory. The library allocates
 * a whole packet as soon as it has read its length, up to 256 MB (MQTT 3.1.1, section 2.2.3). So
 * one message, or five bytes from a bad broker, would end the process. Only the beginning of a
 * longer message is passed on, with a matching length. The rest is read and discarded. The message
 * is acknowledged and refused like any command that is too long, and the connection stays up.
 */
final class BoundedInput extends InputStream {
  /**
   * A topic has at most 64 kB, so the part of the payload that remains is still longer than any
   * valid command.
   */
  static final int PACKET_BYTES_MAX = 1 << 17;

  private static final int FIXED_BYTES_MAX = 5;

  /** How long the library waits for bytes before it checks whether to stop, ms. */
  private static final long TURN_MS = 200;

  private final InputStream broker;
  private final Conversation conversation;
  private final PacketHead head;
  private final byte[] forgotten = new byte[8192];
  private boolean within;

  /**
   * Still to come: the rewritten head, from {@code handedOnTo}. Then {@code left} bytes of the
   * packet are passed on and {@code beyond} bytes are discarded.
   */
  private byte[] handedOn = new byte[0];

  private int handedOnTo;
  private int left;
  private int beyond;

  BoundedInput(InputStream broker, Conversation conversation) {
    this.broker = new BufferedInputStream(broker);
    this.conversation = conversation;
    this.head = new PacketHead(conversation.topicBytesMax());
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  /** A read that ends by timeout loses nothing: the next one continues from there. */
  @Override
  public int read(byte[] to, int offset, int most) throws IOException {
    if (most == 0) {
      return 0;
    }
    try {
      if (handedOnTo == handedOn.length && left == 0 && !next()) {
        return -1;
      }
    } catch (NotMqtt e) {
      conversation.broken(e);
      throw e;
    }
    if (handedOnTo < handedOn.length) {
      int n = Math.min(most, handedOn.length - handedOnTo);
      System.arraycopy(handedOn, handedOnTo, to, offset, n);
      handedOnTo += n;
      return n;
    }
    int n = broker.read(to, offset, Math.min(most, left));
    left -= Math.max(0, n);
    return n;
  }

  /** Discards what is beyond the bound, then reads a head; false at the end of the stream. */
  private boolean next() throws IOException {
    while (beyond > 0) {
      int n = broker.read(forgotten, 0, Math.min(forgotten.length, beyond));
      if (n < 0) {
        return false;
      }
      beyond -= n;
    }
    if (!within && !conversation.awaitTurn(TURN_MS)) {
      throw new SocketTimeoutException("nothing is to be read yet");
    }
    while (!head.whole()) {
      int b = broker.read();
      if (b < 0) {
        return false;
      }
      within = true;
      boolean before = head.fixed();
      head.add(b);
      if (head.fixed() && !before) {
        conversation.begins(head);
      }
    }
    conversation.received(head);
    int length = Math.min(head.length(), PACKET_BYTES_MAX);
    beyond = head.length() - length;
    left = length - head.restBytes();
    handedOn = handedOn(length);
    handedOnTo = 0;
    head.begin();
    within = false;
    return true;
  }

  /** The fixed header with the bounded length, and the rest of the head. */
  private byte[] handedOn(int length) {
    byte[] bytes = new byte[FIXED_BYTES_MAX + head.restBytes()];
    bytes[0] = (byte) head.first();
    int n = 1;
    for (int rest = length; n == 1 || rest > 0; rest >>= 7) {
      bytes[n++] = (byte) ((rest & 0x7F) | (rest > 0x7F ? 0x80 : 0));
    }
    System.arraycopy(head.rest(), 0, bytes, n, head.restBytes());
    return Arrays.copyOf(bytes, n + head.restBytes());
  }
}
