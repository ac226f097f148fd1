package limnostat.daemon;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import limnostat.wire.Sent;

/**
 * What a hub sees of a broker, and what it sends: knows nothing of us but what it is told there.
 */
final class HubClient implements AutoCloseable {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final TestBroker broker;
  private final Program watching;

  /**
   * @param retained whether it was there before we came
   */
  record Message(String topic, boolean retained, String text) {}

  HubClient(TestBroker broker) throws IOException, InterruptedException {
    this.broker = broker;
    List<String> command = new ArrayList<>(List.of("stdbuf", "-oL"));
    command.addAll(broker.client("mosquitto_sub"));
    command.addAll(List.of("-d", "-q", "1", "-t", "#", "-F", "=%r %t %p"));
    watching = Program.start(new ProcessBuilder(command).redirectErrorStream(true));
    watching.awaitOut("Subscribed (mid");
  }

  List<Message> seen() {
    return watching.out().stream()
        .filter(line -> line.startsWith("="))
        .map(line -> line.substring(1).split(" ", 3))
        .map(p -> new Message(p[1], p[0].equals("1"), p[2]))
        .toList();
  }

  /** The newest of each topic; those that were removed are absent. */
  Map<String, String> newest() {
    Map<String, String> newest = new HashMap<>();
    for (Message message : seen()) {
      if (message.text().isEmpty()) {
        newest.remove(message.topic());
      } else {
        newest.put(message.topic(), message.text());
      }
    }
    return newest;
  }

  String await(String topic) throws InterruptedException {
    Program.await(topic, () -> newest().containsKey(topic));
    return newest().get(topic);
  }

  void await(String topic, String text) throws InterruptedException {
    Program.await(topic + " " + text, () -> text.equals(newest().get(topic)));
  }

  /** Sends it and waits for the answer, which is held against its schema. */
  JsonNode ask(String topic, String text, String resultTopic)
      throws IOException, InterruptedException {
    int before = texts(resultTopic).size();
    broker.publish(topic, text);
    Program.await("an answer to " + topic + " " + text, () -> texts(resultTopic).size() > before);
    String answer = texts(resultTopic).get(before);
    Sent.check("result", answer.getBytes(UTF_8));
    return JSON.readTree(answer);
  }

  private List<String> texts(String topic) {
    return seen().stream().filter(m -> m.topic().equals(topic)).map(Message::text).toList();
  }

  JsonNode json(String topic) throws IOException {
    return JSON.readTree(Optional.ofNullable(newest().get(topic)).orElseThrow());
  }

  @Override
  public void close() {
    watching.close();
  }
}
