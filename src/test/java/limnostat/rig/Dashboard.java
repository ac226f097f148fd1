package limnostat.rig;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import limnostat.wire.Sent;

/** A client of another make, {@code mosquitto_sub} and {@code mosquitto_pub}, at one broker. */
public final class Dashboard implements AutoCloseable {
  private static final String SITE = "limnostat/garden/";
  private static final ObjectMapper JSON = new ObjectMapper();

  private final TestBroker broker;
  private final Program watching;

  /**
   * A message.
   *
   * @param topic below the site's
   * @param retained whether it was there before we came
   */
  public record Message(String topic, boolean retained, String text) {
    public JsonNode json() {
      try {
        return JSON.readTree(text);
      } catch (JsonProcessingException e) {
        throw new AssertionError(topic + " is not JSON: " + text, e);
      }
    }
  }

  public Dashboard(TestBroker broker) throws IOException, InterruptedException {
    this(broker, "#");
  }

  /**
   * @param below what it sees, below the site's topic
   */
  public Dashboard(TestBroker broker, String below) throws IOException, InterruptedException {
    this.broker = broker;
    List<String> command = new ArrayList<>(List.of("stdbuf", "-oL"));
    command.addAll(broker.client("mosquitto_sub"));
    command.addAll(List.of("-d", "-q", "1", "-t", SITE + below, "-F", "=%r %t %p"));
    watching = Program.start(new ProcessBuilder(command).redirectErrorStream(true));
    watching.awaitOut("Subscribed (mid");
  }

  public List<Message> seen() {
    return watching.out().stream()
        .filter(line -> line.startsWith("="))
        .map(line -> line.substring(1).split(" ", 3))
        .map(p -> new Message(p[1].substring(SITE.length()), p[0].equals("1"), p[2]))
        .peek(Dashboard::check)
        .toList();
  }

  /** What the program sends fits the published schemas, whatever a test is about. */
  private static void check(Message message) {
    if (!message.topic().equals("command")) {
      Sent.check(message.topic(), message.text().getBytes(UTF_8));
    }
  }

  public List<Message> seen(String topic) {
    return seen().stream().filter(message -> message.topic().equals(topic)).toList();
  }

  /** The first message of a topic that fits, waited for. */
  public Message await(String topic, Predicate<Message> fits) throws InterruptedException {
    Program.await(topic, () -> seen(topic).stream().anyMatch(fits));
    return seen(topic).stream().filter(fits).findFirst().orElseThrow();
  }

  public Message await(String topic) throws InterruptedException {
    return await(topic, message -> true);
  }

  /** The state as soon as it fits. */
  public JsonNode awaitState(Predicate<JsonNode> fits) throws InterruptedException {
    return await("state", message -> fits.test(message.json())).json();
  }

  public void send(String command, String... options) throws IOException, InterruptedException {
    broker.publish(SITE + "command", command, options);
  }

  /** Sends a command and waits for its answer. */
  public JsonNode ask(String command, String... options) throws IOException, InterruptedException {
    int before = seen("result").size();
    send(command, options);
    Program.await("an answer to " + command, () -> seen("result").size() > before);
    return seen("result").get(before).json();
  }

  @Override
  public void close() {
    watching.close();
  }
}
