package limnostat.rig;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A mosquitto of its own process, on the loopback address, that forgets when it ends. */
public record TestBroker(Program program, int port) implements AutoCloseable {
  public static TestBroker start() throws IOException, InterruptedException {
    return start(freePort());
  }

  public static TestBroker start(int port) throws IOException, InterruptedException {
    // Without a configuration file it listens on the loopback address only and lets anybody in.
    return started(Program.start("/usr/sbin/mosquitto", "-p", "" + port), port);
  }

  private static TestBroker started(Program program, int port)
      throws IOException, InterruptedException {
    Program.await("broker on port " + port, () -> !program.alive() || listens(port));
    if (!program.alive()) {
      throw new IOException("mosquitto ended: " + program.err());
    }
    return new TestBroker(program, port);
  }

  /** One that drops nothing for a slow subscriber. */
  public static TestBroker patient(int port, Path folder) throws IOException, InterruptedException {
    return with(port, folder, List.of("allow_anonymous true", "max_queued_messages 0"));
  }

  /**
   * @param lines configuration after the listener's
   */
  public static TestBroker with(int port, Path folder, List<String> lines)
      throws IOException, InterruptedException {
    List<String> all = new ArrayList<>(List.of("listener " + port + " 127.0.0.1"));
    all.addAll(lines);
    Path file = Files.write(folder.resolve("broker.conf"), all);
    return started(Program.start("/usr/sbin/mosquitto", "-c", file.toString()), port);
  }

  public void publish(String topic, String text, String... options)
      throws IOException, InterruptedException {
    List<String> command = client("mosquitto_pub");
    command.addAll(List.of("-q", "1", "-t", topic, "-m", text));
    command.addAll(List.of(options));
    Program.output(command.toArray(String[]::new));
  }

  public List<String> client(String tool) {
    return new ArrayList<>(List.of(tool, "-h", "127.0.0.1", "-p", "" + port));
  }

  @Override
  public void close() {
    program.close();
  }

  public static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private static boolean listens(int port) {
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
      return true;
    } catch (IOException e) {
      return false;
    }
  }
}
