package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** Another client, and of another make, that sees every topic: {@code mosquitto_sub}. */
final class Observer implements AutoCloseable {
  private final Process process;
  private final List<String> seen = new CopyOnWriteArrayList<>();
  private volatile boolean subscribed;

  /** Returns once the broker has confirmed the subscription. */
  Observer(LocalBroker broker, String... options) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                "stdbuf",
                "-oL",
                "mosquitto_sub",
                "-d",
                "-h",
                "127.0.0.1",
                "-p",
                "" + broker.port(),
                "-q",
                "1",
                "-t",
                "#",
                "-F",
                "=%t %r %p"));
    command.addAll(List.of(options));
    process = new ProcessBuilder(command).redirectErrorStream(true).start();
    Thread reader = new Thread(this::read, "observer");
    reader.setDaemon(true);
    reader.start();
    try {
      Links.await("observer subscribed", () -> subscribed);
    } catch (InterruptedException | AssertionError e) {
      close();
      throw e;
    }
  }

  /** Messages as {@code topic retained payload}, the topic without base and site. */
  List<String> seen() {
    return List.copyOf(seen);
  }

  void await(String message) throws InterruptedException {
    Links.await(message + " among " + seen, () -> seen.contains(message));
  }

  /** The payloads of one topic in the order they came, repeated ones once. */
  List<String> payloads(String subtopic) {
    return seen.stream()
        .filter(m -> m.startsWith(subtopic + " "))
        .map(m -> m.substring(subtopic.length() + 3))
        .distinct()
        .toList();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }

  private void read() {
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(process.getInputStream(), UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (line.startsWith("=" + Links.TOPIC)) {
          seen.add(line.substring(1 + Links.TOPIC.length()));
        } else if (line.startsWith("Subscribed (mid")) {
          subscribed = true;
        }
      }
    } catch (IOException e) {
      seen.add("observer ended: " + e);
    }
  }
}
