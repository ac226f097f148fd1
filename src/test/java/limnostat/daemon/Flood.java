package limnostat.daemon;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import limnostat.rig.TestBroker;

/**
 * A client that sends some two thousand messages a second, as long as it is open: as many as the
 * broker can hand on without queueing them for minutes.
 */
final class Flood implements AutoCloseable {
  private static final int AT_ONCE = 200;
  private static final long EVERY_NS = 100_000_000;

  private final Process client;
  private final Thread thread;

  Flood(TestBroker broker, String topic) throws IOException {
    List<String> command = broker.client("mosquitto_pub");
    command.addAll(List.of("-q", "0", "-l", "-t", topic));
    client =
        new ProcessBuilder(command)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    thread = new Thread(this::send, "flood");
    thread.setDaemon(true);
    thread.start();
  }

  boolean goesOn() {
    return client.isAlive() && thread.isAlive();
  }

  private void send() {
    byte[] lines = "{\"type\":\"flood\"}\n".repeat(AT_ONCE).getBytes(StandardCharsets.UTF_8);
    try (OutputStream to = client.getOutputStream()) {
      while (true) {
        to.write(lines);
        to.flush();
        LockSupport.parkNanos(EVERY_NS);
      }
    } catch (IOException e) {
      // it was closed
    }
  }

  @Override
  public void close() {
    client.destroyForcibly();
  }
}
