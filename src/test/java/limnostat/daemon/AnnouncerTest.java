package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.estimate.Estimator;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.ledger.Moment;
import limnostat.mqtt.Link;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.safety.SafetyState;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.wire.Sent;
import org.junit.jupiter.api.Test;

class AnnouncerTest {
  private record Message(String way, String topic, String document) {}

  private final List<Message> sent = new ArrayList<>();
  private boolean away;
  private final Announcer announcer = announcer(Outcomes.START);

  private Announcer announcer(ScanState start) {
    Link link = mock(Link.class);
    doAnswer(c -> note("retain", c.getArgument(0), c.getArgument(1)))
        .when(link)
        .retain(any(), any());
    doAnswer(c -> note("event", c.getArgument(0), c.getArgument(1))).when(link).event(any(), any());
    doAnswer(c -> note("note", c.getArgument(0), c.getArgument(1))).when(link).note(any(), any());
    doAnswer(c -> note("reading", c.getArgument(0), c.getArgument(1)))
        .when(link)
        .reading(any(), any());
    doAnswer(c -> away).when(link).away();
    return new Announcer(link, 10, start, new Moment(0, 1.7e9, true, "boot"));
  }

  private boolean note(String way, String topic, byte[] document) {
    Sent.check(topic, document);
    return sent.add(new Message(way, topic, new String(document, StandardCharsets.UTF_8)));
  }

  private List<String> topics() {
    List<String> topics = sent.stream().map(m -> m.way + " " + m.topic).toList();
    sent.clear();
    return topics;
  }

  private static ScanState alarmed() {
    ScanState s = Outcomes.START;
    return new ScanState(
        s.phase(),
        s.measure(),
        s.estimate(),
        s.control(),
        s.safety(),
        s.chlorine(),
        s.acid(),
        Map.of(Cause.ORP_HIGH, new Alarms.Entry(AlarmState.ACKNOWLEDGED, 0)),
        s.sun(),
        s.annunciator(),
        s.totals());
  }

  @Test
  void alarmsFromBeforeAreAnnouncedAsTheyAre() {
    sent.clear();
    announcer(alarmed());
    List<Message> orp = sent.stream().filter(m -> m.topic.equals("alarm/orp_high")).toList();
    assertEquals(1, orp.size());
    assertTrue(orp.get(0).document.contains("\"acknowledged\""));
    assertEquals("retain", orp.get(0).way);
  }

  /** The broker may still hold one of a process whose ledger is gone. */
  @Test
  void alarmsAtRestAreAnnouncedAtTheStartToo() {
    announcer(Outcomes.START);
    for (Cause cause : Cause.values()) {
      String topic = "alarm/" + cause.id();
      boolean told =
          sent.stream()
              .anyMatch(m -> m.topic.equals(topic) && m.document.contains("\"state\":\"normal\""));
      assertEquals(cause.priority() != Priority.NONE, told, topic);
    }
  }

  @Test
  void theStateGoesOutAtOnceThenNowAndThen() {
    sent.clear();
    announcer.announce(Outcomes.with(), Outcomes.at(0));
    assertEquals(List.of("retain state"), topics());
    for (int s = 1; s < 10; s++) {
      announcer.announce(Outcomes.with(), Outcomes.at(s));
    }
    assertEquals(List.of(), topics());
    announcer.announce(Outcomes.with(), Outcomes.at(10));
    assertEquals(List.of("retain state"), topics());
  }

  @Test
  void whatHappenedIsAnEventAndTheStateFollowsAtOnce() {
    announcer.announce(Outcomes.with(), Outcomes.at(0));
    sent.clear();
    announcer.announce(
        Outcomes.with(new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF)), Outcomes.at(1));
    assertEquals(List.of("event event", "retain state"), topics());
  }

  @Test
  void anAlarmIsAnEventAndARetainedTopic() {
    announcer.announce(Outcomes.with(), Outcomes.at(0));
    sent.clear();
    announcer.announce(
        Outcomes.with(
            new ScanEvent.AlarmChanged(
                Cause.TANK_LOW, AlarmState.UNACKNOWLEDGED, AlarmState.NORMAL)),
        Outcomes.at(1));
    assertTrue(sent.get(1).document.contains("\"state\":\"normal\""));
    assertEquals(List.of("event event", "retain alarm/tank_low", "retain state"), topics());
  }

  /** A test of 0.8 mg/L of combined chlorine whose alarm stands; then one of another amount. */
  @Test
  void theNumbersOfAnAlarmThatStandsAreToldAgainWhenTheyChange() {
    announcer.announce(combined(0.8), Outcomes.at(0));
    sent.clear();
    announcer.announce(combined(0.8), Outcomes.at(10));
    assertEquals(List.of("retain state"), topics());
    announcer.announce(combined(0.9), Outcomes.at(15));
    assertEquals(List.of(), topics(), "with the state, not before");
    announcer.announce(combined(0.9), Outcomes.at(20));
    assertTrue(sent.get(0).document.contains("\"detail\":\"The last test found 0.9 mg/L."));
    assertTrue(sent.get(0).document.contains("\"since_unix_s\":1700000000}"), "as before");
    assertEquals(List.of("retain alarm/combined_chlorine_high", "retain state"), topics());
  }

  private static ScanOutcome combined(double combinedMgL) {
    ScanState s = Outcomes.START;
    Cause cause = Cause.COMBINED_CHLORINE_HIGH;
    SafetyState safety = s.safety();
    return Outcomes.with(
        new ScanState(
            s.phase(),
            s.measure(),
            Estimator.test(
                s.estimate(), WaterTest.EMPTY.with(Tested.COMBINED_CHLORINE, combinedMgL)),
            s.control(),
            new SafetyState(
                Set.of(cause),
                Set.of(cause),
                safety.pendingS(),
                safety.sinceOnS(),
                safety.blind(),
                safety.watched(),
                safety.run()),
            s.chlorine(),
            s.acid(),
            Map.of(cause, new Alarms.Entry(AlarmState.UNACKNOWLEDGED, 0)),
            s.sun(),
            s.annunciator(),
            s.totals()));
  }

  @Test
  void commandsAreAnsweredUnderTheEventsNumber() {
    announcer.announce(Outcomes.with(), Outcomes.at(0));
    sent.clear();
    announcer.announce(
        Outcomes.with(
            new ScanEvent.Accepted(Outcomes.mode()), new ScanEvent.Refused(Outcomes.test(), "no")),
        Outcomes.at(1));
    assertEquals(sent.get(0).document, sent.get(1).document);
    assertEquals(sent.get(2).document, sent.get(3).document);
    assertTrue(sent.get(1).document.contains("\"request_id\":\"a7\""));
    assertEquals(
        List.of("event event", "event result", "note event", "note result", "retain state"),
        topics());
  }

  @Test
  void whatMustArriveIsAnEventAndWhatMayGiveWayANote() {
    announcer.announce(Outcomes.with(), Outcomes.at(0));
    sent.clear();
    announcer.announce(
        Outcomes.with(
            new ScanEvent.DayEnded(Outcomes.with().state().totals()),
            new ScanEvent.SetpointChanged("target_free_chlorine_mg_l", 3, 4, "mqtt"),
            new ScanEvent.ControlLevelChanged(ControlLevel.PLAN, ControlLevel.LEARNED_DEMAND)),
        Outcomes.at(1));
    assertEquals(
        List.of("event event", "retain day", "event event", "note event", "retain state"),
        topics());
  }

  @Test
  void whileTheBrokerIsAwayAReadingAMinuteIsPutBy() {
    for (int s = 0; s < 100; s++) {
      announcer.announce(Outcomes.with(), Outcomes.at(s));
    }
    assertTrue(sent.stream().noneMatch(m -> m.way.equals("reading")), "the state tells it");
    sent.clear();
    away = true;
    for (int s = 100; s < 221; s++) {
      announcer.announce(Outcomes.with(), Outcomes.at(s));
    }
    List<Message> readings = sent.stream().filter(m -> m.way.equals("reading")).toList();
    assertEquals(3, readings.size());
    assertEquals(3, readings.stream().map(Message::document).distinct().count());
    assertTrue(
        readings.get(1).document.contains("\"time_unix_s\":1700000160"), readings.toString());
    assertEquals("reading", readings.get(0).topic);
  }

  @Test
  void numbersAreUnlike() {
    Set<String> documents = new HashSet<>();
    sent.clear();
    for (int i = 0; i < 100; i++) {
      announcer.announce(
          Outcomes.with(new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF)), Outcomes.at(1));
    }
    sent.stream().filter(m -> m.way.equals("event")).forEach(m -> documents.add(m.document));
    assertEquals(100, documents.size());
  }
}
