package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Test;

class StateDocumentTest {
  private static final double NOON = 1_782_907_200;

  private static final Map<Role, Signal> GOOD =
      Map.of(
          Role.ORP_MV, new Signal.Analog(690),
          Role.PH_MV, new Signal.Analog(-24),
          Role.WATER_C, new Signal.Analog(25),
          Role.FLOW, new Signal.Contact(true));

  /** Scans of one second; the fresh water and the separation take 300 of them. */
  private static ScanOutcome scans(Map<Role, Signal> signals, int times) {
    ScanState state = ScanState.start(TestSettings.pool());
    ScanOutcome outcome = null;
    for (int i = 0; i < times; i++) {
      outcome =
          Scan.step(
              TestSettings.pool(),
              state,
              new ScanInputs(
                  i == 0 ? 0 : 1,
                  NOON + i,
                  true,
                  Signals.of(signals),
                  Map.of(Output.CHLORINE, state.chlorine().account().requested()),
                  false,
                  true,
                  List.of()));
      state = outcome.state();
    }
    return outcome;
  }

  private static JsonNode state(ScanOutcome outcome) throws IOException {
    byte[] document = StateDocument.of(outcome, NOON);
    Sent.check("state", document);
    return Json.MAPPER.readTree(document);
  }

  /** A text where a number belongs is what the writer makes of infinity and NaN. */
  static void assertNumbers(JsonNode node) {
    if (node.isTextual()) {
      assertFalse(
          List.of("NaN", "Infinity", "-Infinity").contains(node.textValue()), "not a number");
    }
    if (node.isNumber()) {
      assertTrue(Double.isFinite(node.doubleValue()));
    }
    node.forEach(StateDocumentTest::assertNumbers);
  }

  @Test
  void theFieldsOfTheProtocol() throws IOException {
    JsonNode state = state(scans(GOOD, 300));
    assertEquals("auto", state.path("mode").textValue());
    assertEquals(690, state.path("orp_mv").doubleValue());
    assertEquals(7.4057, state.path("ph").doubleValue(), "7 + 24/59.159, four decimals");
    assertEquals(25, state.path("water_c").doubleValue());
    assertEquals("good", state.path("status").path("orp_mv").textValue());
    assertEquals("plan", state.path("control_level").textValue(), "whoever has tested");
    assertEquals("none", state.path("test_due").textValue());
    JsonNode diagnostics = state.path("diagnostics");
    assertEquals(1, diagnostics.path("output_gain").doubleValue(), 0.01);
    // 20 g/h around the clock, under the cap of 150 g a day
    assertEquals(150, diagnostics.path("chlorine_available_g_day").doubleValue(), 2);
    assertTrue(diagnostics.path("chlorine_needed_g_day").doubleValue() > 20);
    for (String field :
        List.of(
            "duty",
            "free_chlorine_mg_l",
            "free_chlorine_sd_mg_l",
            "demand_mg_l_day",
            "time_unix_s")) {
      assertTrue(state.path(field).isNumber(), field);
    }
    assertTrue(state.path("inhibits").isArray());
    assertNumbers(state);
  }

  /** Told 30 and 3400 mg/L, as a test would: ±10 and ±340; the rest never told. */
  @Test
  void whatChangesOverWeeksIsToldWithItsDeviation() throws IOException {
    JsonNode state = state(scans(GOOD, 1));
    assertEquals(30, state.path("cyanuric_acid_mg_l").doubleValue());
    assertEquals(10, state.path("cyanuric_acid_sd_mg_l").doubleValue());
    assertFalse(state.path("cyanuric_acid_wanted").booleanValue());
    assertEquals(3400, state.path("salt_mg_l").doubleValue());
    assertEquals(340, state.path("salt_sd_mg_l").doubleValue());
    for (String field : List.of("calcium_hardness", "total_alkalinity")) {
      assertTrue(state.path(field + "_mg_l").isNumber(), field);
      assertTrue(state.path(field + "_sd_mg_l").doubleValue() > 30, field);
    }
    assertEquals(0, state.path("acid_demand_ml_day").doubleValue());
    assertTrue(state.path("solar_w_m2").isNull(), "none fitted");
    assertTrue(state.path("diagnostics").path("sun_shape").isNumber());
  }

  @Test
  void absentProbesAreNull() throws IOException {
    JsonNode state = state(scans(Map.of(Role.FLOW, new Signal.Contact(true)), 200));
    for (String field : List.of("ph", "orp_mv", "water_c")) {
      assertTrue(state.path(field).isNull(), field);
      assertEquals("failure", state.path("status").path(field).textValue());
    }
    assertEquals(0, state.path("duty").doubleValue(), "blind from the start");
  }

  /** A sample that is no value is shown all the same, and its status says what it is. */
  @Test
  void anImplausibleSampleIsShownAsANumberHoweverLarge() throws IOException {
    JsonNode state =
        state(
            scans(
                Map.of(
                    Role.FLOW, new Signal.Contact(true),
                    Role.WATER_C, new Signal.Analog(1.7e308),
                    Role.ORP_MV, new Signal.Analog(-1.7e308),
                    Role.PH_MV, new Signal.Analog(1.7e308)),
                200));
    assertEquals(1.7e308, state.path("water_c").doubleValue());
    assertNumbers(state);
  }

  /** Every cause that holds is told with what it holds, and none that does not. */
  @Test
  void inhibitsAreTheCausesThatHold() throws IOException {
    ScanOutcome outcome = scans(GOOD, 1);
    JsonNode inhibits = state(outcome).path("inhibits");
    int held = 0;
    for (Cause cause : outcome.permission().active()) {
      held +=
          cause.on(Output.CHLORINE) == Effect.INHIBIT || cause.on(Output.ACID) == Effect.INHIBIT
              ? 1
              : 0;
    }
    assertEquals(held, inhibits.size());
    assertEquals("interrupted", inhibits.path(0).path("cause").textValue());
    assertEquals("[\"chlorine\",\"acid\"]", inhibits.path(0).path("outputs").toString());
  }

  @Test
  void limitsAreTheCausesThatLimit() throws IOException {
    JsonNode state = state(scans(Map.of(Role.FLOW, new Signal.Contact(true)), 200));
    assertEquals(
        "[\"orp_failure\",\"ph_failure\",\"water_failure\"]", state.path("limits").toString());
  }

  @Test
  void theBenchLineHasOutputsAlarmsAndEvents() throws IOException {
    ScanOutcome outcome = scans(Map.of(), 61);
    JsonNode line = Json.MAPPER.readTree(StateDocument.benchLine(outcome, NOON));
    assertEquals(NOON, line.path("t").doubleValue());
    assertEquals(
        "{\"chlorine\":0.0,\"acid\":0.0,\"pump_request\":true}", line.path("out").toString());
    assertEquals(state(outcome), line.path("state"));
    JsonNode alarm = line.path("alarms").path(0);
    assertEquals("flow_missing", alarm.path("id").textValue());
    assertEquals("high", alarm.path("priority").textValue());
    assertEquals("unacknowledged", alarm.path("state").textValue());
    assertEquals("alarm", line.path("events").path(0).path("event").textValue());
  }

  /** A test that contradicts is told in the state, and in the alarm with its numbers. */
  @Test
  void theBenchLineHasTheDetailOfAnAlarm() throws IOException {
    ScanState state = scans(GOOD, 300).state();
    ScanOutcome outcome = null;
    for (int i = 0; i <= 60; i++) { // the second test comes at 1 s and counts its own second
      List<Command.Request> commands =
          i < 2 ? List.of(test(i == 0 ? 2.1 : 6.3)) : List.<Command.Request>of();
      outcome =
          Scan.step(
              TestSettings.pool(),
              state,
              new ScanInputs(1, NOON + i, true, Signals.of(GOOD), Map.of(), false, true, commands));
      state = outcome.state();
    }
    JsonNode line = Json.MAPPER.readTree(StateDocument.benchLine(outcome, NOON));
    assertEquals("contradicted", line.path("state").path("test_due").textValue());
    JsonNode alarm = MissingNode.getInstance();
    for (JsonNode raised : line.path("alarms")) {
      alarm = raised.path("id").textValue().equals("test_due") ? raised : alarm;
    }
    assertTrue(alarm.path("detail").textValue().startsWith("The last test read 6.3 mg/L"));
    assertEquals(outcome.details().of(Cause.TEST_DUE).orElseThrow(), detail(line.path("events")));
  }

  private static Command.Request test(double freeChlorineMgL) {
    return new Command.Request(
        Optional.empty(),
        "test_result",
        "test",
        "{}",
        new Command.Test(WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL)));
  }

  private static String detail(JsonNode events) {
    for (JsonNode event : events) {
      if (event.has("detail") && "test_due".equals(event.path("alarm").textValue())) {
        return event.path("detail").textValue();
      }
    }
    return "none";
  }

  /** An alarm whose delay still runs is none yet. */
  @Test
  void alarmsInDelayAreNotTold() throws IOException {
    ScanOutcome outcome = scans(Map.of(), 50);
    assertFalse(outcome.state().alarms().isEmpty());
    assertEquals(
        0, Json.MAPPER.readTree(StateDocument.benchLine(outcome, NOON)).path("alarms").size());
  }
}
