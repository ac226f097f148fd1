package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import limnostat.wire.Sent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The packaged daemon, and what comes in that should not; and a person at the machine. */
@Timeout(120)
class NetworkCommandsIT {
  @TempDir Path folder;

  private Program daemon(ConfigText text) throws Exception {
    return Program.limnostat("run", "--config", text.write(folder).toString());
  }

  private static String refusal(JsonNode answer) {
    assertEquals("refused", answer.at("/result").asText(), answer.toString());
    return answer.at("/reason").asText();
  }

  private static void contains(String text, String part) {
    assertTrue(text.contains(part), text);
  }

  @Test
  void badInputIsAnsweredWithTheReasonAndChangesNoOutput() throws Exception {
    ConfigText shipped =
        ConfigText.feedingSoon()
            .with("mqtt.allow", "[\"test_result\", \"acknowledge\", \"off\", \"function_check\"]");
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker);
        Program daemon = daemon(shipped.withBroker(broker.port()))) {
      JsonNode before = dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
      contains(refusal(dashboard.ask("off")), "not valid JSON");
      contains(refusal(dashboard.ask("[\"off\"]")), "JSON object");
      contains(refusal(dashboard.ask("{\"type\":\"target\",\"free_chlorine_mg_l\":NaN}")), "JSON");
      contains(
          refusal(dashboard.ask("{\"type\":\"function_check\",\"minutes\":\"10\"}")), "minutes");
      contains(refusal(dashboard.ask("{\"a\":".repeat(500) + "1" + "}".repeat(500))), "nesting");
      contains(refusal(dashboard.ask("{\"type\":\"flush\"}")), "unknown type");
      JsonNode kept =
          dashboard.ask("{\"type\":\"target\",\"free_chlorine_mg_l\":4,\"request_id\":\"k\"}");
      contains(refusal(kept), "mqtt.allow does not have \"target\"");
      assertEquals("k", kept.at("/request_id").asText());
      contains(refusal(dashboard.ask("{\"type\":\"season_reset\"}")), "at the board");
      for (String skewed : List.of("2001-09-09T01:46:40Z", "2091-01-01T00:00:00+02:00")) {
        contains(
            refusal(
                dashboard.ask("{\"type\":\"mode\",\"mode\":\"off\",\"time\":\"" + skewed + "\"}")),
            "stale");
      }
      for (long bytes : new long[] {1 << 20, 150 << 20}) { // the second is above its heap
        JsonNode answer = askWith(broker, dashboard, bytes);
        contains(refusal(answer), "longer than 4096 bytes");
        assertEquals("long", answer.at("/request_id").asText(), answer.toString());
      }
      broker.publish("limnostat/other/command", "{\"type\":\"mode\",\"mode\":\"off\"}");
      String acknowledge =
          "{\"type\":\"acknowledge\",\"alarm\":\"nonsense\",\"request_id\":\"twice\"}";
      String first = refusal(dashboard.ask(acknowledge));
      JsonNode again = dashboard.ask(acknowledge);
      assertEquals(first, refusal(again));
      assertTrue(again.at("/repeated").asBoolean(), again.toString());

      int states = dashboard.seen("state").size();
      Program.await("another state", () -> dashboard.seen("state").size() > states);
      JsonNode after = dashboard.seen("state").get(states).json();
      assertEquals("auto", after.at("/mode").asText());
      assertEquals(before.at("/outputs"), after.at("/outputs"), after.toString());
      assertEquals(before.at("/target_free_chlorine_mg_l"), after.at("/target_free_chlorine_mg_l"));
      assertEquals(0, after.at("/function_check_left_s").asDouble());

      Path flood = Files.writeString(folder.resolve("flood"), "{}\n".repeat(300));
      List<String> many = new ArrayList<>(broker.client("mosquitto_pub"));
      many.addAll(List.of("-q", "1", "-t", "limnostat/garden/command", "-l"));
      try (Program sender = Program.start(new ProcessBuilder(many).redirectInput(flood.toFile()))) {
        assertEquals(0, sender.exit(), sender.err().toString());
      }
      daemon.awaitLog("were dropped without an answer");
      assertEquals(
          1,
          daemon.err().stream().filter(line -> line.contains("dropped without")).count(),
          "one line for all");
      Thread.sleep(2000); // a few a second again
      dashboard.send("{\"type\":\"mode\",\"mode\":\"off\"}");
      dashboard.awaitState(state -> state.at("/mode").asText().equals("off"));
    }
  }

  /** Thousands a second on the same topic, all the while. */
  @Test
  void whileSomebodyFloodsTheOwnerAndTheMachineAreHeard() throws Exception {
    ConfigText text = ConfigText.feedingSoon();
    try (TestBroker broker = TestBroker.start();
        Dashboard results = new Dashboard(broker, "result");
        Program daemon = daemon(text.withBroker(broker.port()))) {
      daemon.awaitLog("is up");
      try (Flood flood = new Flood(broker, "limnostat/garden/command")) {
        daemon.awaitLog("were dropped without an answer");
        for (String id : List.of("owner-1", "owner-2", "owner-3")) {
          results.send("{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":\"" + id + "\"}");
          JsonNode answer =
              results.await("result", m -> m.json().at("/request_id").asText().equals(id)).json();
          assertEquals("accepted", answer.at("/result").asText(), answer.toString());
          json(
              0,
              "accepted",
              "test",
              "--config",
              folder.resolve("limnostat.toml") + "",
              "--ph",
              "7.4");
        }
        assertTrue(flood.goesOn(), "all the while");
      }
    }
  }

  /** Left with the broker, it is of unknown age; whose it was is told all the same. */
  @Test
  void aRetainedCommandIsRefusedAndItsSenderTold() throws Exception {
    ConfigText shipped =
        ConfigText.feedingSoon()
            .with("mqtt.homie", "true")
            .with("mqtt.allow", "[\"target\", \"off\"]");
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker, "result");
        Dashboard states = new Dashboard(broker, "state")) {
      dashboard.send("{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":\"old\"}", "-r");
      String set = "homie/5/limnostat-garden/control/target/set";
      broker.publish(set, "4", "-r");
      try (Program daemon = daemon(shipped.withBroker(broker.port()))) {
        JsonNode old =
            dashboard
                .await("result", m -> m.json().at("/request_id").asText().equals("old"))
                .json();
        contains(refusal(old), "retain flag");
        assertEquals("mode", old.at("/type").asText());
        JsonNode other =
            dashboard.await("result", m -> m.json().at("/type").asText().equals("target")).json();
        contains(refusal(other), "retain flag");
        assertEquals("mqtt " + set, other.at("/origin").asText());
        JsonNode state = states.awaitState(s -> true);
        assertEquals("auto", state.at("/mode").asText());
        assertEquals(0, daemon.out().size());
      }
    }
  }

  /** Asks by a document of so many bytes. */
  private JsonNode askWith(TestBroker broker, Dashboard dashboard, long bytes) throws Exception {
    Path file =
        Files.writeString(
            folder.resolve("long"), "{\"type\":\"mode\",\"request_id\":\"long\",\"mode\":\"off\"");
    try (RandomAccessFile filled = new RandomAccessFile(file.toFile(), "rw")) {
      filled.setLength(bytes);
    }
    int answers = dashboard.seen("result").size();
    List<String> command = new ArrayList<>(broker.client("mosquitto_pub"));
    command.addAll(List.of("-q", "1", "-t", "limnostat/garden/command", "-f", file.toString()));
    Program.output(command.toArray(String[]::new));
    Program.await("an answer", () -> dashboard.seen("result").size() > answers);
    return dashboard.seen("result").get(answers).json();
  }

  private static void calibrate(int status, String answer, String config, String... step)
      throws Exception {
    List<String> arguments = new ArrayList<>(List.of("calibrate", "--config", config));
    arguments.addAll(List.of(step));
    try (Program program = Program.limnostat(arguments.toArray(String[]::new))) {
      assertEquals(status, program.exit(), program.err().toString());
      assertTrue(program.out().get(0).startsWith(answer), program.out().toString());
    }
  }

  /** The document fits the published schema as an event does that has its id and time. */
  private static void json(int status, String result, String... arguments) throws Exception {
    List<String> all = new ArrayList<>(List.of(arguments));
    all.add("--json");
    try (Program program = Program.limnostat(all.toArray(String[]::new))) {
      assertEquals(status, program.exit(), program.err().toString());
      assertEquals(1, program.out().size(), program.out().toString());
      ObjectNode answer = (ObjectNode) new ObjectMapper().readTree(program.out().get(0));
      assertEquals(result, answer.path("result").asText(), answer.toString());
      answer.put("id", "1").put("time_unix_s", 1);
      Sent.check("result", answer.toString().getBytes(StandardCharsets.UTF_8));
    }
  }

  @Test
  void aTestAtTheMachineNeedsNoBroker() throws Exception {
    ConfigText text = ConfigText.feedingSoon().withoutBroker();
    String config = text.write(folder).toString();
    String[] good = {"test", "--config", config, "--free-chlorine", "1.1", "--ph", "7.4"};
    try (Program alone = Program.limnostat(good)) {
      assertEquals(1, alone.exit());
      contains(String.join("\n", alone.err()), "no daemon");
    }
    try (Program daemon = daemon(text)) {
      daemon.awaitLog("first scan done");
      try (Program test = Program.limnostat(good)) {
        assertEquals(0, test.exit(), test.err() + "" + daemon.err());
        assertTrue(test.out().get(0).startsWith("accepted"), test.out().toString());
      }
      daemon.awaitLog("command test_result from board accepted");
      try (Program test = Program.limnostat("test", "--config", config, "--ph", "74")) {
        assertEquals(1, test.exit());
        assertTrue(test.out().get(0).startsWith("refused: "), test.out().toString());
      }
      try (Program none = Program.limnostat("test", "--config", config)) {
        assertEquals(2, none.exit());
      }
      try (Program added =
          Program.limnostat(
              "add", "--config", config, "liquid_chlorine", "1 gal", "--ago", "5 min")) {
        assertEquals(0, added.exit(), added.err() + "" + daemon.err());
        assertTrue(added.out().get(0).startsWith("accepted: a1, free chlorine"));
        assertTrue(added.out().get(1).startsWith("Never mix products"), added.out().toString());
      }
      daemon.awaitLog("command addition from board accepted");
      try (Program listed = Program.limnostat("add", "--config", config, "--list")) {
        assertEquals(0, listed.exit());
        assertTrue(listed.out().get(0).startsWith("a1 "), listed.out().toString());
        assertTrue(listed.out().get(0).contains("3785 mL (1 gal) of 12.5 % liquid_chlorine"));
      }
      json(0, "accepted", "add", "--config", config, "--list");
      json(0, "accepted", "add", "--config", config, "--undo", "a1");
      json(1, "refused", "add", "--config", config, "--undo", "a1");
      calibrate(1, "refused: calibrate needs a function check", config, "--orp", "470");
      calibrate(0, "accepted", config, "--begin", "30");
      calibrate(1, "refused: no calibration by command", config, "--undo", "ph");
      calibrate(1, "refused: ", config, "--ph", "99", "--temperature", "25");
      calibrate(0, "accepted", config, "--begin", "0");
      json(0, "accepted", "test", "--config", config, "--ph", "7.4");
      json(1, "refused", "test", "--config", config, "--ph", "74");
      json(1, "refused", "calibrate", "--config", config, "--orp", "470");
      json(0, "accepted", "calibrate", "--config", config, "--begin", "5");
    }
    try (Program late = Program.limnostat(good)) {
      assertEquals(1, late.exit());
      contains(String.join("\n", late.err()), "nothing is recorded");
    }
    try (var left = Files.list(LocalCommandFolder.folder(folder.resolve("limnostat.db")))) {
      assertFalse(left.findAny().isPresent(), "nothing left behind");
    }
  }
}
