package limnostat.daemon.service;

import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/**
 * Sends datagrams to a local socket, which Java's own channels cannot do (theirs are streams). The
 * first use of this class loads JNA, which takes 0.2 s on a small machine, so it is used only if
 * there is somebody to notify. The numbers are those of Linux on x86 and Arm.
 */
final class NotifySocket {
  static final int AF_UNIX = 1;
  static final int SOCK_DGRAM = 2;
  private static final int SOCK_CLOEXEC = 0x80000;
  private static final int MSG_DONTWAIT = 0x40;

  /** {@code sun_path} of {@code sockaddr_un}, bytes; a path must end in a zero within it. */
  private static final int PATH_BYTES = 108;

  static {
    Native.register(NotifySocket.class, Platform.C_LIBRARY_NAME);
  }

  private NotifySocket() {}

  /**
   * Sends one datagram without ever waiting: a full queue is an error like any other.
   *
   * @param address absolute path, or {@code @} and a name in the abstract namespace
   * @throws IOException when it was not handed over, with the system's own message
   */
  static void send(String address, byte[] message) throws IOException {
    byte[] socketAddress = socketAddress(address);
    int descriptor = socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC, 0);
    if (descriptor < 0) {
      throw failed("socket");
    }
    try {
      NativeLong sent =
          sendto(
              descriptor,
              message,
              new NativeLong(message.length),
              MSG_DONTWAIT,
              socketAddress,
              socketAddress.length);
      if (sent.longValue() != message.length) {
        throw failed("sendto");
      }
    } finally {
      close(descriptor);
    }
  }

  /** The {@code sockaddr_un} of an address, as unix(7) lays it out. */
  static byte[] socketAddress(String address) throws IOException {
    byte[] path = address.getBytes(StandardCharsets.UTF_8);
    if (path.length < 2 || path.length >= PATH_BYTES || (path[0] != '/' && path[0] != '@')) {
      throw new IOException(
          "'%s' is no socket address: it needs a leading / or @ and at most %d bytes"
              .formatted(address, PATH_BYTES - 1));
    }
    boolean inAbstractNamespace = path[0] == '@';
    if (inAbstractNamespace) {
      path[0] = 0;
    }
    // In the abstract namespace every byte of the length counts, so no zero may follow the name.
    return ByteBuffer.allocate(Short.BYTES + path.length + (inAbstractNamespace ? 0 : 1))
        .order(ByteOrder.nativeOrder())
        .putShort((short) AF_UNIX)
        .put(path)
        .array();
  }

  private static IOException failed(String call) {
    return new IOException(call + ": " + strerror(Native.getLastError()));
  }

  private static native int socket(int domain, int type, int protocol);

  private static native NativeLong sendto(
      int descriptor,
      byte[] message,
      NativeLong length,
      int flags,
      byte[] address,
      int addressLength);

  private static native int close(int descriptor);

  private static native String strerror(int error);
}
