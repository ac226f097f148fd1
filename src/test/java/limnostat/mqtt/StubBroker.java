package limnostat.mqtt;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Speaks as much of MQTT 3.1.1 as it takes to misbehave: chapter 3 of the standard has the bytes.
 */
final class StubBroker implements AutoCloseable {

  /** How it misbehaves. */
  enum Manner {
    SAYS_NOTHING,
    REFUSES_SUBSCRIPTIONS,
    ACKNOWLEDGES_NOTHING
  }

  private static final int CONNECT = 1;
  private static final int PUBLISH = 3;
  private static final int SUBSCRIBE = 8;

  private final ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
  private final AtomicInteger accepted = new AtomicInteger();
  private final Manner manner;

  StubBroker(Manner manner) throws IOException {
    this.manner = manner;
    start(this::accept);
  }

  int port() {
    return server.getLocalPort();
  }

  int accepted() {
    return accepted.get();
  }

  @Override
  public void close() throws IOException {
    server.close();
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Socket client = server.accept();
        accepted.incrementAndGet();
        start(() -> serve(client));
      } catch (IOException e) {
        // closed: the test is over
      }
    }
  }

  private void serve(Socket client) {
    try (client) {
      DataInputStream in = new DataInputStream(client.getInputStream());
      OutputStream out = client.getOutputStream();
      while (true) {
        int head = in.readUnsignedByte();
        byte[] rest = new byte[length(in)];
        in.readFully(rest);
        out.write(answer(head, rest));
      }
    } catch (IOException e) {
      // the client has ended the connection
    }
  }

  private byte[] answer(int head, byte[] rest) {
    if (manner == Manner.SAYS_NOTHING) {
      return new byte[0];
    }
    return switch (head >> 4) {
      case CONNECT -> new byte[] {0x20, 2, 0, 0};
      case SUBSCRIBE -> {
        int granted = manner == Manner.REFUSES_SUBSCRIPTIONS ? 0x80 : 1;
        yield new byte[] {(byte) 0x90, 3, rest[0], rest[1], (byte) granted};
      }
      case PUBLISH -> {
        int topicEnd = 2 + (rest[0] << 8) + rest[1];
        yield manner == Manner.ACKNOWLEDGES_NOTHING
            ? new byte[0]
            : new byte[] {0x40, 2, rest[topicEnd], rest[topicEnd + 1]};
      }
      default -> new byte[0];
    };
  }

  private static int length(DataInputStream in) throws IOException {
    int length = 0;
    for (int shift = 0; ; shift += 7) {
      int b = in.readUnsignedByte();
      length |= (b & 0x7f) << shift;
      if (b < 0x80) {
        return length;
      }
    }
  }

  private static void start(Runnable run) {
    Thread thread = new Thread(run, "stub");
    thread.setDaemon(true);
    thread.start();
  }
}
