package limnostat.daemon.service;

import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** The service manager's end of the notification socket. */
public final class ReceivingSocket implements AutoCloseable {
  private static final int MSG_DONTWAIT = 0x40;

  static {
    Native.register(ReceivingSocket.class, Platform.C_LIBRARY_NAME);
  }

  private final int descriptor;

  public ReceivingSocket(String address) throws IOException {
    descriptor = socket(NotifySocket.AF_UNIX, NotifySocket.SOCK_DGRAM, 0);
    byte[] socketAddress = NotifySocket.socketAddress(address);
    if (descriptor < 0 || bind(descriptor, socketAddress, socketAddress.length) != 0) {
      throw new IOException("bind " + address + ": errno " + Native.getLastError());
    }
  }

  /** Every datagram that has come and was not taken yet. */
  public List<String> messages() {
    List<String> messages = new ArrayList<>();
    byte[] buffer = new byte[8192];
    while (true) {
      int length = recv(descriptor, buffer, new NativeLong(buffer.length), MSG_DONTWAIT).intValue();
      if (length < 0) {
        return messages;
      }
      messages.add(new String(buffer, 0, length, StandardCharsets.UTF_8));
    }
  }

  @Override
  public void close() {
    close(descriptor);
  }

  private static native int socket(int domain, int type, int protocol);

  private static native int bind(int descriptor, byte[] address, int addressLength);

  private static native NativeLong recv(
      int descriptor, byte[] buffer, NativeLong length, int flags);

  private static native int close(int descriptor);
}
