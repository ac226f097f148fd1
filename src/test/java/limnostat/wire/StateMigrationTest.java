package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import limnostat.account.DoseAccount;
import limnostat.actuate.Output;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.BlindFeed;
import limnostat.safety.Cause;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class StateMigrationTest {
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

  private StateMigration read() throws IOException {
    return StateMigration.read(PLAIN.writeValueAsBytes(document), FRESH);
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
    StateMigration other = read();
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
    StateMigration other = read();
    assertEquals(List.of("estimate", "control"), other.lost());
    assertEquals(FRESH.estimate().mixture(), other.state().estimate().mixture());
    assertEquals(FRESH.estimate().tests(), other.state().estimate().tests());
    assertEquals(saved.estimate().slow(), other.state().estimate().slow(), "what tests said");
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

  /**
   * As the version wrote it that fed by hours without ORP (state-fallback-hours.json: three
   * simulated days, 450 g given, tested twice, at the day's cap, ORP unplugged for two hours).
   */
  private static ObjectNode ofFallbackHours() throws IOException {
    try (InputStream in =
        StateMigrationTest.class.getResourceAsStream("state-fallback-hours.json")) {
      return (ObjectNode) PLAIN.readTree(in);
    }
  }

  private static StateMigration read(ObjectNode document) throws IOException {
    return StateMigration.read(PLAIN.writeValueAsBytes(document), FRESH);
  }

  /** What was given counts on, a person's choices stand; the filter begins anew. */
  @Test
  void aStateOfFallbackHoursIsTakenUp() throws IOException {
    ObjectNode before = ofFallbackHours();
    ((ObjectNode) before.get("control")).put("mode", "OFF").put("targetMgL", 2.5);
    StateMigration other = read(before);
    assertEquals(List.of("estimate"), other.lost());
    assertTrue(other.mayFeed());
    ScanState state = other.state();
    DoseAccount account = state.chlorine().account();
    assertEquals(before.at("/chlorine/account/given").doubleValue(), account.given());
    assertEquals(before.at("/chlorine/account/day").doubleValue(), account.lastDay(), 1e-9);
    assertTrue(account.dayReached(SETTINGS.chlorine().caps()), account::toString);
    assertEquals(Mode.OFF, state.control().mode());
    assertEquals(2.5, state.control().targetMgL());
    assertEquals(BlindFeed.UNCONFIRMED, state.safety().blind());
    assertTrue(state.safety().active().contains(Cause.ORP_FAILURE));
    assertEquals(32.9, state.estimate().slow().cyanuricAcidMgL(), 0.1, "as tested");
    assertEquals(FRESH.estimate().mixture(), state.estimate().mixture());
    assertEquals(FRESH.estimate().tests(), state.estimate().tests());
  }

  /**
   * It fed nothing as the hours were over, on ORP alone, after a trip of a kind that is no more.
   */
  @Test
  void whatIsNoMoreInAStateOfFallbackHoursIsLeftOut() throws IOException {
    ObjectNode before = ofFallbackHours();
    ((ArrayNode) before.at("/safety/active")).add("FALLBACK_EXPIRED").add("NO_RESPONSE");
    ((ArrayNode) before.at("/safety/present")).add("FALLBACK_EXPIRED");
    ((ObjectNode) before.at("/safety/watched/response/trip")).put("kind", "FALLEN");
    ((ObjectNode) before.at("/control/ladder")).put("rung", "ORP_ALONE");
    ((ObjectNode) before.get("alarms"))
        .set("FALLBACK_EXPIRED", before.at("/alarms/ORP_FAILURE").deepCopy());
    StateMigration other = read(before);
    assertEquals(List.of("estimate"), other.lost());
    assertTrue(other.state().safety().active().contains(Cause.NO_RESPONSE), "what latched stays");
    assertEquals(ControlLevel.NONE, other.state().control().level().settled());
    assertTrue(other.state().alarms().containsKey(Cause.ORP_FAILURE));
  }

  /** The next scans go on: nothing is fed at the cap, and nothing before the water is seen. */
  @Test
  void aPoolGoesOnFromAStateOfFallbackHours() throws IOException {
    ScanState state = read(ofFallbackHours()).state().resumed(SETTINGS);
    double before = state.chlorine().account().given();
    for (int i = 0; i < 2000; i++) {
      ScanOutcome out =
          Scan.step(
              SETTINGS,
              state,
              new ScanInputs(
                  10,
                  1.79e9 + 10 * i,
                  true,
                  Signals.of(
                      Map.of(
                          Role.PH_MV, new Signal.Analog(-20 + i % 3),
                          Role.WATER_C, new Signal.Analog(24.0 + i % 2 / 10.0),
                          Role.FLOW, new Signal.Contact(true))),
                  Map.of(Output.CHLORINE, before),
                  false,
                  true,
                  List.of()));
      assertEquals(0, out.outputs().chlorine(), "scan " + i);
      state = out.state();
    }
    assertTrue(state.safety().active().contains(Cause.BLIND_FEED_SPENT));
    assertEquals(before, state.chlorine().account().given());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "null", "[]", "7", "no JSON", "{\"phase\":"})
  void whatIsNoObjectIsRefused(String json) {
    byte[] bytes = json.getBytes(StandardCharsets.UTF_8);
    assertThrows(IOException.class, () -> StateMigration.read(bytes, FRESH));
  }

  @Test
  void ofAnEmptyObjectAllIsLost() throws IOException {
    StateMigration other = StateMigration.read("{}".getBytes(StandardCharsets.UTF_8), FRESH);
    assertEquals(FRESH, other.state());
    assertEquals(12, other.lost().size());
    assertFalse(other.mayFeed());
    assertNotEquals(saved, other.state());
  }
}
