package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import limnostat.actuate.Outputs;
import limnostat.control.ControlState;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.SafetyLimits;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class InputLineTest {
  /** What an error must name: a field, or what the line as a whole is not. */
  private static final Pattern NAMED =
      Pattern.compile(
          "(?s)^(t|in|in\\..*|cmd): |not valid JSON: |not readable: |a JSON object with");

  private static final String FULL =
      "{\"t\":1782864000.5,\"in\":{\"orp_mv\":690,\"ph_mv\":-24,\"water_c\":25,\"flow\":true,"
          + "\"cell_a\":5,\"cell_v\":24,\"tank_low\":false,\"cover_closed\":true,\"pump_on\":true,"
          + "\"solar_w_m2\":800,\"acid_tank_low\":false},"
          + "\"cmd\":[{\"type\":\"mode\",\"mode\":\"off\"},{\"type\":\"x\"}]}";

  private static InputLine read(String line) throws InputLine.Malformed {
    return InputLine.read(line.getBytes(StandardCharsets.UTF_8));
  }

  private static String error(String line) {
    return assertThrows(InputLine.Malformed.class, () -> read(line), line).getMessage();
  }

  @Test
  void everyRoleIsRead() throws InputLine.Malformed {
    InputLine line = read(FULL);
    assertEquals(1782864000.5, line.t());
    for (Role role : Role.values()) {
      assertFalse(line.signals().of(role) instanceof Signal.Missing, role.key());
    }
    assertEquals(new Signal.Analog(-24), line.signals().of(Role.PH_MV));
    assertEquals(new Signal.Contact(true), line.signals().of(Role.FLOW));
    assertEquals(2, line.commands().size());
    assertEquals("bench", line.commands().get(0).origin());
    assertInstanceOf(Command.Unreadable.class, line.commands().get(1).command());
  }

  @Test
  void anAbsentOrNullRoleIsAFailedRead() throws InputLine.Malformed {
    InputLine line = read("{\"t\":1,\"in\":{\"orp_mv\":null}}");
    assertInstanceOf(Signal.Missing.class, line.signals().of(Role.ORP_MV));
    assertInstanceOf(Signal.Missing.class, line.signals().of(Role.FLOW));
    assertEquals(List.of(), line.commands());
    assertEquals(List.of(), read("{\"t\":1,\"in\":{},\"cmd\":null}").commands());
  }

  @Test
  void flowIsASwitchOrAMeter() throws InputLine.Malformed {
    assertEquals(
        new Signal.Analog(80.5), read("{\"t\":1,\"in\":{\"flow\":80.5}}").signals().of(Role.FLOW));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\u0007',
      value = {
        "{\"in\":{}}|t:",
        "{\"t\":null,\"in\":{}}|t:",
        "{\"t\":\"1\",\"in\":{}}|t:",
        "{\"t\":1e400,\"in\":{}}|t:",
        "{\"t\":-1e400,\"in\":{}}|t:",
        "{\"t\":1e300,\"in\":{}}|t:",
        "{\"t\":1}|in:",
        "{\"t\":1,\"in\":[]}|in:",
        "{\"t\":1,\"in\":{\"orp\":1}}|in.orp:",
        "{\"t\":1,\"in\":{\"orp_mv\":\"690\"}}|in.orp_mv:",
        "{\"t\":1,\"in\":{\"orp_mv\":true}}|in.orp_mv:",
        "{\"t\":1,\"in\":{\"pump_on\":1}}|in.pump_on:",
        "{\"t\":1,\"in\":{\"flow\":\"yes\"}}|in.flow:",
        "{\"t\":1,\"in\":{\"flow\":{}}}|in.flow:",
        "{\"t\":1,\"in\":{},\"cmd\":{}}|cmd:",
        "{\"t\":1,\"in\":{\"flow\":true,\"flow\":false}}|not valid JSON",
        "{\"t\":NaN,\"in\":{}}|not valid JSON",
        "{\"t\":1,\"in\":{}} x|not valid JSON",
        "[1]|a JSON object",
        "null|a JSON object"
      })
  void theErrorNamesTheField(String line, String named) {
    assertTrue(error(line).contains(named), error(line));
  }

  @Test
  void anEmptyLineIsAnError() {
    assertTrue(error("").contains("JSON object"));
  }

  @Test
  void anErrorLineIsOneLineOfJson() throws IOException {
    String line = new String(InputLine.errorLine("a \"b\"\nc", 7), StandardCharsets.UTF_8);
    assertEquals(line.length() - 1, line.indexOf('\n'));
    JsonNode node = Json.MAPPER.readTree(line);
    assertEquals("a \"b\"\nc", node.path("error").textValue());
    assertEquals(7, node.path("line").intValue());
  }

  /**
   * Whatever comes in: an error with its reason, or a scan whose answer is one line of JSON, with
   * the outputs off, as flow is never proven here.
   */
  @Tag("slow")
  @Test
  void spoiltLinesNeitherThrowNorEndTheRun() throws IOException {
    List<String> lines = new ArrayList<>(List.of(FULL));
    CommandReaderTest.DOCUMENTS.forEach(
        c -> lines.add("{\"t\":5,\"in\":{\"orp_mv\":650,\"flow\":true},\"cmd\":[" + c + "]}"));
    Fuzz fuzz = new Fuzz(12);
    ScanState start = ScanState.start(TestSettings.pool());
    int read = 0;
    for (int i = 0; i < 47_000; i++) {
      byte[] line = fuzz.spoilt(lines);
      try {
        InputLine input = InputLine.read(line);
        read++;
        ScanOutcome outcome = scan(start, input);
        assertEquals(0, outcome.outputs().chlorine());
        assertEquals(0, outcome.outputs().acid());
        assertWithinLimits(outcome);
        String answer =
            new String(StateDocument.benchLine(outcome, input.t()), StandardCharsets.UTF_8);
        assertEquals(answer.length() - 1, answer.indexOf('\n'));
        JsonNode node = Json.MAPPER.readTree(answer);
        StateDocumentTest.assertNumbers(node.path("state"));
        StateDocumentTest.assertNumbers(node.path("out"));
      } catch (InputLine.Malformed malformed) {
        assertTrue(NAMED.matcher(malformed.getMessage()).find(), malformed.getMessage());
        assertTrue(malformed.getMessage().length() < 1000, malformed.getMessage());
        assertTrue(Json.MAPPER.readTree(InputLine.errorLine(malformed.getMessage(), i)).isObject());
      }
    }
    assertTrue(read > 2500 && read < 43_000, read + " read");
  }

  /** S8: what was granted of the line's commands passes no limit. */
  private static void assertWithinLimits(ScanOutcome outcome) {
    SafetyLimits limits = TestSettings.pool().limits();
    ControlState control = outcome.state().control();
    assertTrue(control.targetMgL() >= 1 && control.targetMgL() <= limits.targetMaxMgL());
    assertTrue(control.manualDuty() >= 0 && control.manualDuty() <= 1);
    double levelMgL = control.superchlorination().levelMgL();
    assertTrue(levelMgL >= 0 && levelMgL <= limits.superchlorinationMaxMgL());
  }

  /** The first scan, and one after an outage that lasts until the line's time. */
  private static ScanOutcome scan(ScanState start, InputLine input) {
    ScanOutcome first = scan(start, input, 0);
    assertEquals(Outputs.OFF.chlorine(), first.outputs().chlorine());
    return scan(first.state(), input, Math.abs(input.t()));
  }

  private static ScanOutcome scan(ScanState state, InputLine input, double elapsedS) {
    return Scan.step(
        TestSettings.pool(),
        state,
        new ScanInputs(
            elapsedS, input.t(), true, input.signals(), Map.of(), false, true, input.commands()));
  }
}
