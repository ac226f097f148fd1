package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import limnostat.account.DoseAccount;
import limnostat.actuate.Output;
import limnostat.control.Mode;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class OtherStateTest {
  private static final JsonMapper PLAIN = new JsonMapper();
  private static final ScanSettings SETTINGS = TestSettings.pool();
  private static final ScanState FRESH = ScanState.start(SETTINGS);

  private ScanState saved;
  private ObjectNode document;

  /** Some minutes of a pool that has been given 7 g of chlorine. */
  @BeforeEach
  void aPoolThatRan() throws IOException {
    ScanState state = FRESH;
    for (int i = 0; i < 400; i++) {
      state =
          Scan.step(
                  SETTINGS,
                  state,
                  new ScanInputs(
                      i == 0 ? 0 : 1,
                      1.7e9 + i,
                      true,
                      Signals.of(
                          Map.of(
                              Role.ORP_MV, new Signal.Analog(690 + i % 7),
                              Role.PH_MV, new Signal.Analog(-20 + i % 3),
                              Role.WATER_C, new Signal.Analog(24.0 + i % 2 / 10.0),
                              Role.FLOW, new Signal.Contact(true))),
                      Map.of(Output.CHLORINE, 7.0),
                      false,
                      true,
                      List.of()))
              .state();
    }
    DoseAccount given = state.chlorine().account();
    assertTrue(given.requested() > 0, "nothing was booked");
    saved = state;
    document = (ObjectNode) PLAIN.readTree(SavedState.write(state));
  }

  private OtherState read() throws IOException {
    return OtherState.read(PLAIN.writeValueAsBytes(document), FRESH);
  }

  private ObjectNode at(String pointer) {
    return (ObjectNode) document.at(pointer);
  }

  @Test
  void aWholeOneComesBack() throws IOException {
    assertEquals(saved, read().state());
    assertEquals(List.of(), read().lost());
  }

  /** An older version did not know of it: it begins as on the first day, and nothing is lost. */
  @ParameterizedTest
  @CsvSource({
    "/measure,phCheck",
    "/estimate/slow,stabiliser",
    "/estimate,tests",
    "/control,capacity",
    "/safety/watched,response",
    "/safety,run",
    "/totals,now"
  })
  void aFieldThatIsMissingBeginsAnew(String parent, String field) throws IOException {
    at(parent).remove(field);
    assertThrows(
        IOException.class, () -> SavedState.read(PLAIN.writeValueAsBytes(document)), "not whole");
    OtherState other = read();
    assertEquals(List.of(), other.lost());
    assertTrue(other.mayFeed());
    assertEquals(saved.chlorine(), other.state().chlorine());
    assertEquals(saved.alarms(), other.state().alarms());
    ObjectNode fresh = (ObjectNode) PLAIN.readTree(SavedState.write(FRESH));
    ObjectNode back = (ObjectNode) PLAIN.readTree(SavedState.write(other.state()));
    assertEquals(fresh.at(parent).get(field), back.at(parent).get(field));
  }

  @Test
  void aFieldThatIsNoLongerKnownIsLeftOut() throws IOException {
    at("/control").put("moon", 3);
    at("/safety").put("moon", 3);
    assertEquals(saved, read().state());
    assertEquals(List.of(), read().lost());
  }

  @Test
  void aPartThatCannotBeReadIsLostAndTheRestIsNot() throws IOException {
    at("/estimate").put("waterC", "NaN");
    at("/control").put("mode", "ASLEEP");
    OtherState other = read();
    assertEquals(List.of("estimate", "control"), other.lost());
    assertEquals(FRESH.estimate(), other.state().estimate());
    assertEquals(Mode.AUTO, other.state().control().mode());
    assertEquals(saved.chlorine(), other.state().chlorine());
    assertEquals(saved.measure(), other.state().measure());
    assertTrue(other.mayFeed());
  }

  /** The account is never filled in: what is not there was not nothing. */
  @ParameterizedTest
  @ValueSource(strings = {"given", "requested", "minutes"})
  void withoutTheWholeAccountNothingMayBeFed(String field) throws IOException {
    at("/chlorine/account").remove(field);
    assertEquals(List.of("chlorine"), read().lost());
    assertFalse(read().mayFeed());
    assertEquals(saved.estimate(), read().state().estimate(), "what was learned stays");
  }

  @ParameterizedTest
  @ValueSource(strings = {"chlorine", "acid", "safety", "alarms"})
  void withoutWhatFeedingGoesByNothingMayBeFed(String part) throws IOException {
    document.remove(part);
    assertEquals(List.of(part), read().lost());
    assertFalse(read().mayFeed());
    document.put(part, 5);
    assertEquals(List.of(part), read().lost());
  }

  @Test
  void anAccountOfAnotherShapeIsLost() throws IOException {
    ((ObjectNode) document.get("acid")).remove("account");
    assertEquals(List.of("acid"), read().lost());
    at("/chlorine/account").put("more", 1);
    assertEquals(List.of("chlorine", "acid"), read().lost());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "null", "[]", "7", "no JSON", "{\"phase\":"})
  void whatIsNoObjectIsRefused(String json) {
    byte[] bytes = json.getBytes(StandardCharsets.UTF_8);
    assertThrows(IOException.class, () -> OtherState.read(bytes, FRESH));
  }

  @Test
  void ofAnEmptyObjectAllIsLost() throws IOException {
    OtherState other = OtherState.read("{}".getBytes(StandardCharsets.UTF_8), FRESH);
    assertEquals(FRESH, other.state());
    assertEquals(12, other.lost().size());
    assertFalse(other.mayFeed());
    assertNotEquals(saved, other.state());
  }
}
