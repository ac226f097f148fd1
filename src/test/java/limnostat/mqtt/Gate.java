package limnostat.mqtt;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;

/** A line to the broker that can be cut, so that a test decides when the link comes back. */
final class Gate implements AutoCloseable {
  private final ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
  private final Queue<Closeable> open = new ConcurrentLinkedQueue<>();
  private final int brokerPort;
  private volatile boolean passing = true;

  Gate(int brokerPort) throws IOException {
    this.brokerPort = brokerPort;
    start(this::accept);
  }

  int port() {
    return server.getLocalPort();
  }

  /** Ends every connection and lets none through. */
  void cut() throws IOException {
    passing = false;
    for (Closeable c = open.poll(); c != null; c = open.poll()) {
      c.close();
    }
  }

  void mend() {
    passing = true;
  }

  @Override
  public void close() throws IOException {
    cut();
    server.close();
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Socket client = server.accept();
        if (!passing) {
          client.close();
          continue;
        }
        Socket broker = new Socket(InetAddress.getLoopbackAddress(), brokerPort);
        open.add(client);
        open.add(broker);
        start(() -> copy(client, broker));
        start(() -> copy(broker, client));
      } catch (IOException e) {
        // the broker is down or the test is over: this connection ends, as it would on a line
      }
    }
  }

  private static void copy(Socket from, Socket to) {
    try (from;
        to) {
      from.getInputStream().transferTo(to.getOutputStream());
    } catch (IOException e) {
      // either side has ended, so both do
    }
  }

  private static void start(Runnable run) {
    Thread thread = new Thread(run, "gate");
    thread.setDaemon(true);
    thread.start();
  }
}
