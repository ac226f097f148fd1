package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.alarm.Shelf;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.safety.Cause;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;

class EventDocumentTest {
  private static Command.Request request(Optional<String> id) {
    return new Command.Request(id, "target", "mqtt", "{}", new Command.SetTarget(3));
  }

  @Test
  void eachEventHasItsShape() {
    assertEquals(
        "{\"event\":\"alarm\",\"alarm\":\"orp_high\",\"priority\":\"high\",\"from\":\"normal\","
            + "\"to\":\"unacknowledged\"}",
        EventDocument.text(
            new ScanEvent.AlarmChanged(
                Cause.ORP_HIGH, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED)));
    assertEquals(
        "{\"event\":\"mode\",\"from\":\"auto\",\"to\":\"off\"}",
        EventDocument.text(new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF)));
    assertEquals(
        "{\"event\":\"interlock\",\"cause\":\"no_flow\",\"title\":\"no flow\",\"active\":true}",
        EventDocument.text(new ScanEvent.Tripped(Cause.NO_FLOW, true)));
    assertEquals(
        "{\"event\":\"interrupted\",\"elapsed_s\":90.5}",
        EventDocument.text(new ScanEvent.Interrupted(90.5)));
    assertEquals(
        "{\"event\":\"command\",\"type\":\"target\",\"request_id\":\"a7\",\"origin\":\"mqtt\","
            + "\"result\":\"accepted\"}",
        EventDocument.text(new ScanEvent.Accepted(request(Optional.of("a7")))));
    assertEquals(
        "{\"event\":\"command\",\"type\":\"target\",\"origin\":\"mqtt\","
            + "\"result\":\"refused\",\"reason\":\"no\"}",
        EventDocument.text(new ScanEvent.Refused(request(Optional.empty()), "no")));
  }

  @Test
  void whatAnEventHasToSayBeyondIsToldWhereItHas() {
    assertEquals(
        "{\"event\":\"alarm\",\"alarm\":\"test_due\",\"priority\":\"low\",\"from\":\"normal\","
            + "\"to\":\"unacknowledged\",\"detail\":\"3.1 mg/L\"}",
        EventDocument.text(
            new ScanEvent.AlarmChanged(
                Cause.TEST_DUE,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                Optional.of("3.1 mg/L"))));
    assertEquals(
        "{\"event\":\"command\",\"type\":\"target\",\"origin\":\"mqtt\","
            + "\"result\":\"accepted\",\"remark\":\"but\"}",
        EventDocument.text(new ScanEvent.Accepted(request(Optional.empty()), Optional.of("but"))));
    assertEquals(
        "{\"event\":\"control_level\",\"from\":\"plan\",\"to\":\"learned_demand\"}",
        EventDocument.text(
            new ScanEvent.ControlLevelChanged(ControlLevel.PLAN, ControlLevel.LEARNED_DEMAND)));
  }

  @Test
  void anAlarmsTopicHasItsDetail() {
    String document =
        new String(
            AlarmDocument.of(
                Cause.OUTPUT_TOO_SMALL,
                new AlarmDocument.Shown(AlarmState.UNACKNOWLEDGED, Optional.of("40 g")),
                2),
            StandardCharsets.UTF_8);
    assertTrue(document.contains("\"detail\":\"40 g\",\"since_unix_s\":2"), document);
  }

  @Test
  void theTopicsEventHasANumberAndATime() {
    assertEquals(
        "{\"id\":\"5-1\",\"time_unix_s\":1.5,\"event\":\"mode\",\"from\":\"auto\",\"to\":\"off\"}",
        new String(
            EventDocument.numbered(new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF), 1.5, "5-1"),
            StandardCharsets.UTF_8));
  }

  @Test
  void anAlarmsTopicTellsAllThatAPersonNeeds() {
    assertEquals(
        "{\"id\":\"tank_low\",\"priority\":\"medium\",\"state\":\"returned unacknowledged\","
            + "\"acknowledged\":false,\"first_out\":false,"
            + "\"title\":\"chlorine tank low\",\"advice\":\""
            + Cause.TANK_LOW.advice()
            + "\",\"since_unix_s\":2}",
        new String(
            AlarmDocument.of(
                Cause.TANK_LOW,
                new AlarmDocument.Shown(AlarmState.RETURNED_UNACKNOWLEDGED, Optional.empty()),
                2),
            StandardCharsets.UTF_8));
  }

  @Test
  void anAlarmIsRaisedInEveryStateButNormal() {
    for (AlarmState state :
        new AlarmState[] {
          AlarmState.UNACKNOWLEDGED,
          AlarmState.ACKNOWLEDGED,
          AlarmState.RETURNED_UNACKNOWLEDGED,
          AlarmState.LATCHED_UNACKNOWLEDGED,
          AlarmState.LATCHED
        }) {
      assertTrue(AlarmDocument.raised(new Alarms.Entry(state, 30)), state.term());
    }
    assertTrue(
        AlarmDocument.raised(
            new Alarms.Entry(AlarmState.NORMAL, 0, new Shelf(9, 9), false, false, false)));
    assertFalse(AlarmDocument.raised(new Alarms.Entry(AlarmState.NORMAL, 59)));
    assertTrue(AlarmDocument.raised(new Alarms.Entry(AlarmState.UNACKNOWLEDGED, 0)));
  }
}
