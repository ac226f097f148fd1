package limnostat.mqtt;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;

/**
 * The output to the broker. It tells a {@link Conversation} about each packet before it is sent.
 */
final class SentPackets extends FilterOutputStream {
  private static final int TOPIC_BYTES_MAX = 0xFFFF;

  private final Conversation conversation;
  private final PacketHead head = new PacketHead(TOPIC_BYTES_MAX);

  /** Bytes of the packet that are left after its head. */
  private int left;

  SentPackets(OutputStream broker, Conversation conversation) {
    super(broker);
    this.conversation = conversation;
  }

  @Override
  public void write(int b) throws IOException {
    write(new byte[] {(byte) b}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int offset, int length) throws IOException {
    for (int at = offset; at < offset + length; ) {
      if (left > 0) {
        int n = Math.min(left, offset + length - at);
        left -= n;
        at += n;
        continue;
      }
      head.add(bytes[at++] & 0xFF);
      if (head.whole()) {
        conversation.sent(head);
        left = head.length() - head.restBytes();
        head.begin();
      }
    }
    out.write(bytes, offset, length);
  }
}
