package limnostat.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import javax.net.ServerSocketFactory;

/**
 * A broker that behaves as a test says, on the loopback address. Each connection has a thread of
 * its own; what it does is its {@link Manner}'s.
 */
public final class HostileBroker implements AutoCloseable {

  /** How one connection is treated; the connection ends with it, unless it was ended otherwise. */
  public interface Manner {
    /** An exception is the end of the connection, as where the client has closed it. */
    void serve(Caller caller) throws IOException;
  }

  /** The rules kept. */
  public static final Manner PROPER = Caller::serveForEver;

  private final ServerSocket server;
  private final Manner manner;
  private final AtomicInteger accepted = new AtomicInteger();
  private final Set<Socket> open = ConcurrentHashMap.newKeySet();

  public HostileBroker(Manner manner) throws IOException {
    this(ServerSocketFactory.getDefault(), manner);
  }

  HostileBroker(ServerSocketFactory sockets, Manner manner) throws IOException {
    server = sockets.createServerSocket(0, 50, InetAddress.getLoopbackAddress());
    this.manner = manner;
    start(this::accept);
  }

  public int port() {
    return server.getLocalPort();
  }

  /** Connections so far. */
  public int accepted() {
    return accepted.get();
  }

  /** Ends every connection too. */
  @Override
  public void close() throws IOException {
    server.close();
    for (Socket socket : open) {
      socket.close();
    }
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Socket socket = server.accept();
        int number = accepted.getAndIncrement();
        start(() -> serve(socket, number));
      } catch (IOException e) {
        // closed: the test is over
      }
    }
  }

  private void serve(Socket socket, int number) {
    open.add(socket);
    try (socket) {
      manner.serve(new Caller(socket, number));
    } catch (IOException e) {
      // the connection has ended
    } finally {
      open.remove(socket);
    }
  }

  private static void start(Runnable run) {
    Thread thread = new Thread(run, "hostile");
    thread.setDaemon(true);
    thread.start();
  }
}
