package limnostat.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import limnostat.rig.ConfigText;
import limnostat.rig.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The packaged bench over its pipes, against the bench protocol. */
@Timeout(90)
class BenchIT {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS);
  private static final Pattern PLANT =
      Pattern.compile("scans 20000 .* mean ([0-9.]+) max ([0-9.]+) .* status 0");

  @TempDir Path folder;

  private String config() throws Exception {
    return ConfigText.feedingSoon().write(folder).toString();
  }

  @Test
  void holdsAPlantThatIsNotOurs() throws Exception {
    List<String> command =
        new ArrayList<>(
            List.of("python3", "src/test/plants/outside_plant.py", "20000", "10", "--"));
    command.addAll(Program.limnostatCommand("bench", "--config", config()).command());
    String line = Program.output(command.toArray(String[]::new));
    Matcher plant = PLANT.matcher(line);
    assertTrue(plant.matches(), line);
    double meanMgL = Double.parseDouble(plant.group(1));
    double maxMgL = Double.parseDouble(plant.group(2));
    // Target 3 mg/L, from 1 mg/L; a probe whose law is not the one assumed, and no water test.
    assertTrue(meanMgL > 2 && meanMgL < 4, line);
    assertTrue(maxMgL < 5, "limits.free_chlorine_high: " + line);
  }

  /** Answers to lines, one each; the exit status is 0. */
  private List<JsonNode> answers(List<byte[]> lines) throws Exception {
    ByteArrayOutputStream input = new ByteArrayOutputStream();
    for (byte[] line : lines) {
      input.writeBytes(line);
      input.write('\n');
    }
    Path file = Files.write(folder.resolve("input"), input.toByteArray());
    try (Program bench =
        Program.start(
            Program.limnostatCommand("bench", "--config", config()).redirectInput(file.toFile()))) {
      assertEquals(0, bench.exit(), bench.err().toString());
      List<JsonNode> answers = new ArrayList<>();
      for (String line : bench.out()) {
        answers.add(JSON.readTree(line));
      }
      assertEquals(lines.size(), answers.size(), "an answer to each line: " + answers);
      return answers;
    }
  }

  /** A scan of water that wants chlorine. */
  private static String good(int t) {
    double noise = t % 2;
    return "{\"t\":"
        + t
        + ",\"in\":{\"orp_mv\":"
        + (600 + noise)
        + ",\"ph_mv\":-20,\"water_c\":25,\"flow\":true}}";
  }

  private static byte[] bytes(String text) {
    return text.getBytes(UTF_8);
  }

  private static void assertOff(JsonNode answer) {
    assertEquals(0, answer.at("/out/chlorine").asDouble(-1), answer.toString());
    assertEquals(0, answer.at("/out/acid").asDouble(-1), answer.toString());
  }

  @Test
  void answersEachMalformedLineAndStartsAgainWithOutputsOff() throws Exception {
    List<byte[]> malformed = new ArrayList<>();
    malformed.add(bytes(""));
    malformed.add(bytes("{\"t\":1"));
    malformed.add(bytes("null"));
    malformed.add(bytes("[1]"));
    malformed.add(bytes("{\"t\":\"later\",\"in\":{}}"));
    malformed.add(bytes("{\"t\":1e999,\"in\":{}}"));
    malformed.add(bytes("{\"t\":1e300,\"in\":{}}"));
    malformed.add(bytes("{\"t\":-1,\"in\":{}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"flow\":1e999}}"));
    malformed.add(bytes("{\"t\":NaN,\"in\":{}}"));
    malformed.add(bytes("{\"in\":{}}"));
    malformed.add(bytes("{\"t\":9000000}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":7}"));
    malformed.add(bytes("{\"t\":1,\"in\":{\"flow\":true}}")); // backwards
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"salt_smell\":1}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"orp_mv\":\"650\"}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"orp_mv\":true}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"tank_low\":1}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{},\"cmd\":{}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{}} {\"t\":9000001,\"in\":{}}"));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"flow\":true,\"flow\":false}}"));
    malformed.add(bytes("[".repeat(100_000)));
    malformed.add(bytes("{\"t\":9000000,\"in\":{\"x\":\"" + "y".repeat(1_000_000) + "\"}}"));
    malformed.add(new byte[] {'{', '"', 't', '"', (byte) 0xff, (byte) 0xfe, '}'});
    malformed.add(new byte[] {0, 0, 0});

    List<byte[]> lines = new ArrayList<>();
    List<Integer> bad = new ArrayList<>();
    int t = 10_000;
    for (byte[] line : malformed) {
      for (int i = 0; i < 4; i++, t += 10) {
        lines.add(bytes(good(t)));
      }
      bad.add(lines.size());
      lines.add(line);
    }
    lines.add(bytes(good(t)));

    List<JsonNode> answers = answers(lines);
    for (int i = 0; i < answers.size(); i++) {
      JsonNode answer = answers.get(i);
      if (bad.contains(i)) {
        assertTrue(answer.at("/error").asText().length() > 5, "line " + (i + 1) + ": " + answer);
        assertEquals(i + 1, answer.at("/line").asInt(), answer.toString());
        assertEquals(2, answer.size(), answer.toString());
        assertEquals(1, answers.get(i - 1).at("/out/chlorine").asDouble(), "feeding before it");
        assertOff(answers.get(i + 1));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"1782864000", "1782864000.1", "0.5", "1782864000.125"})
  void echoesTheTimeAsItCame(String t) throws Exception {
    List<byte[]> lines = List.of(bytes(good(0).replace("\"t\":0", "\"t\":" + t)));
    JsonNode answer = answers(lines).get(0);
    assertEquals(t, answer.at("/t").decimalValue().toString());
  }

  @Test
  void aNullOrAbsentRoleIsAFailedRead() throws Exception {
    List<JsonNode> answers =
        answers(
            List.of(
                bytes(good(10)),
                bytes(good(20)),
                bytes("{\"t\":30,\"in\":{\"orp_mv\":null,\"water_c\":25,\"flow\":true}}"),
                bytes("{\"t\":40,\"in\":{\"flow\":null}}"),
                bytes("{\"t\":50,\"in\":{}}")));
    assertEquals(1, answers.get(1).at("/out/chlorine").asDouble());
    assertEquals("out of specification", answers.get(2).at("/state/status/orp_mv").asText());
    assertEquals("out of specification", answers.get(2).at("/state/status/ph").asText());
    assertOff(answers.get(3));
    assertOff(answers.get(4));
  }

  @Test
  void answersCommandsInTheEventsOfTheirScan() throws Exception {
    String commands =
        ",\"cmd\":["
            + "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":\"a\"},"
            + "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":2},"
            + "{\"type\":\"reset\",\"interlock\":\"no_flow\"},"
            + "17]}";
    List<JsonNode> answers =
        answers(
            List.of(
                bytes(good(10)),
                bytes(good(20)),
                bytes(good(30).replaceFirst("}$", commands)),
                bytes(good(40))));
    assertEquals(1, answers.get(1).at("/out/chlorine").asDouble());
    List<JsonNode> events = new ArrayList<>();
    answers
        .get(2)
        .at("/events")
        .forEach(e -> events.add(e.at("/event").asText().equals("command") ? e : null));
    events.removeIf(e -> e == null);
    assertEquals(4, events.size(), answers.get(2).toString());
    assertEquals("accepted", events.get(0).at("/result").asText());
    assertEquals("a", events.get(0).at("/request_id").asText());
    assertEquals("refused", events.get(1).at("/result").asText());
    assertTrue(events.get(1).at("/reason").asText().contains("duty 2 is above"), events.toString());
    assertTrue(events.get(2).at("/reason").asText().contains("not latched"), events.toString());
    assertTrue(events.get(3).at("/reason").asText().contains("JSON object"), events.toString());
    assertEquals("off", answers.get(2).at("/state/mode").asText());
    assertOff(answers.get(2));
    assertOff(answers.get(3));
  }

  @Test
  void theLongestStepThereCanBeIsAGapToo() throws Exception {
    List<JsonNode> answers =
        answers(
            List.of(
                bytes(good(0)),
                bytes(good(10)),
                bytes(good(0).replace("\"t\":0", "\"t\":253402300798")),
                bytes(good(0).replace("\"t\":0", "\"t\":253402300799"))));
    assertEquals(1, answers.get(1).at("/out/chlorine").asDouble());
    assertOff(answers.get(2));
    assertTrue(answers.get(3).at("/state/free_chlorine_mg_l").isNumber(), answers.toString());
  }

  @Test
  void aGapIsAnInterruption() throws Exception {
    List<JsonNode> answers =
        answers(List.of(bytes(good(10)), bytes(good(20)), bytes(good(81)), bytes(good(91))));
    assertEquals(1, answers.get(1).at("/out/chlorine").asDouble());
    assertOff(answers.get(2));
    assertEquals("interrupted", answers.get(2).at("/events/0/event").asText());
    assertEquals(1, answers.get(3).at("/out/chlorine").asDouble());
  }
}
