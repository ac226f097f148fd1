package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * A broker for the demo and for tests: the distribution's {@code mosquitto} as a child process, on
 * the loopback address only. It loses all its data when it ends. It does not end with this process
 * by itself, so close it.
 */
public final class LocalBroker implements AutoCloseable {
  private static final String PROGRAM = "mosquitto";

  /** Some folders where daemons are installed are not in a normal user's PATH. */
  private static final List<String> MORE_FOLDERS = List.of("/usr/sbin", "/usr/local/sbin");

  private static final long START_MS_MAX = 5000;
  private static final long POLL_MS = 20;
  private static final long END_MS_MAX = 2000;

  private final Path folder;
  private final Process process;
  private final int port;

  private LocalBroker(Path folder, Process process, int port) {
    this.folder = folder;
    this.process = process;
    this.port = port;
  }

  /** The broker's program, if it is installed. */
  public static Optional<Path> find() {
    String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
    return Stream.concat(Stream.of(path.split(File.pathSeparator)), MORE_FOLDERS.stream())
        .filter(folder -> !folder.isEmpty())
        .map(folder -> Path.of(folder, PROGRAM))
        .filter(Files::isExecutable)
        .findFirst();
  }

  /**
   * Starts a broker on a free port, open to every process on this machine.
   *
   * @throws IOException it is not installed or does not start; the text says which
   */
  public static LocalBroker start() throws IOException, InterruptedException {
    return start(freePort(), List.of("allow_anonymous true"));
  }

  /**
   * Starts a broker.
   *
   * @param lines configuration lines after the listener's; they must say who may connect
   */
  static LocalBroker start(int port, List<String> lines) throws IOException, InterruptedException {
    Path program =
        find()
            .orElseThrow(
                () ->
                    new IOException(
                        PROGRAM + " is not in PATH nor in " + MORE_FOLDERS + "; install it"));
    Path folder = Files.createTempDirectory("limnostat-broker");
    // When started as root it switches to its own user, which must be able to read its files.
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
    Path configuration = folder.resolve("broker.conf");
    List<String> all = new ArrayList<>();
    all.add("persistence false");
    all.add("log_dest stderr");
    all.add("log_type error");
    all.add("log_type warning");
    all.add("listener " + port + " 127.0.0.1");
    all.addAll(lines);
    Files.write(configuration, all, UTF_8);
    Process process =
        new ProcessBuilder(program.toString(), "-c", configuration.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log").toFile())
            .start();
    LocalBroker broker = new LocalBroker(folder, process, port);
    try {
      broker.awaitListening();
      return broker;
    } catch (IOException | InterruptedException e) {
      broker.close();
      throw e;
    }
  }

  /** A port of the loopback address on which nothing is listening now. */
  static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  public int port() {
    return port;
  }

  /** Process id of the broker. */
  long pid() {
    return process.pid();
  }

  /** Kills it and removes its files. */
  @Override
  public void close() {
    process.destroyForcibly();
    try {
      process.waitFor(END_MS_MAX, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    for (String name : List.of("broker.conf", "log", "")) {
      folder.resolve(name).toFile().delete();
    }
  }

  private void awaitListening() throws IOException, InterruptedException {
    long deadlineNanos = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(START_MS_MAX);
    while (process.isAlive() && System.nanoTime() < deadlineNanos) {
      try (Socket socket = new Socket()) {
        socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
        return;
      } catch (IOException notYet) {
        Thread.sleep(POLL_MS);
      }
    }
    throw new IOException(
        PROGRAM
            + " does not listen on 127.0.0.1:"
            + port
            + "; it said: "
            + Files.readString(folder.resolve("log")));
  }
}
