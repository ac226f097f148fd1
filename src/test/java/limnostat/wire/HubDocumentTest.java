package limnostat.wire;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import limnostat.alarm.AlarmState;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Test;

/** The hub's own rules are as it documents them for its device-based discovery (read). */
class HubDocumentTest {
  private static final ScanState START = ScanState.start(TestSettings.pool());

  static final String STATE =
      new String(
          StateDocument.of(
              Scan.step(
                  TestSettings.pool(),
                  Scan.step(TestSettings.pool(), START, inputs(0)).state(),
                  inputs(1)),
              1.7e9),
          UTF_8);

  private static ScanInputs inputs(double elapsedS) {
    return new ScanInputs(
        elapsedS, 1.7e9, true, Signals.of(Map.of()), Map.of(), false, true, List.of());
  }

  static Installation at(Predicate<String> allows, boolean homie) {
    return new Installation(
        "garden", "limnostat/garden", "0.1.0", TestSettings.pool(), allows, homie);
  }

  private static JsonNode document(Installation at) {
    return Sent.json(HubDocument.of(at));
  }

  private static final List<HubEntity> ALL = HubEntity.of(document(at(type -> true, false)));

  @Test
  void everyValueIsThereAndOfItsKind() {
    String health =
        new String(
            new HealthDocument(9, 1, 2, 0.1, 0.2, 3, 1, false, 0.3, 4, 5, 6, 7).at(7), UTF_8);
    Set<String> topics = new HashSet<>();
    for (HubEntity entity : ALL) {
      String topic = entity.text("state_topic").replace("limnostat/garden/", "");
      topics.add(topic.replaceFirst("/.*", ""));
      switch (topic) {
        case "state" -> entity.value(STATE);
        case "health" -> entity.value(health);
        default ->
            assertTrue(topic.isEmpty() || topic.equals("event") || topic.startsWith("alarm/"));
      }
      assertEquals(
          topic.equals("state") && !entity.has("command_topic")
              ? 30
              : topic.equals("health") ? 180 : 0,
          entity.node().path("expire_after").intValue(),
          entity.id());
    }
    assertEquals(Set.of("", "state", "health", "event", "alarm"), topics);
  }

  /** A problem while somebody is asked to see to it, whatever has become of its cause. */
  @Test
  void anAlarmIsAProblemWhileItAsksForAPerson() {
    Set<AlarmState> asking =
        Set.of(
            AlarmState.UNACKNOWLEDGED,
            AlarmState.ACKNOWLEDGED,
            AlarmState.RETURNED_UNACKNOWLEDGED,
            AlarmState.LATCHED_UNACKNOWLEDGED,
            AlarmState.LATCHED);
    for (Cause cause : Cause.values()) {
      Optional<HubEntity> alarm =
          ALL.stream().filter(e -> e.id().equals("alarm_" + cause.id())).findFirst();
      assertEquals(cause.priority() != Priority.NONE, alarm.isPresent(), cause.id());
      for (AlarmState state : alarm.isPresent() ? AlarmState.values() : new AlarmState[0]) {
        byte[] topic = AlarmDocument.of(cause, new AlarmDocument.Shown(state, Optional.empty()), 2);
        assertEquals(
            asking.contains(state) ? "True" : "False",
            alarm.get().value(new String(topic, UTF_8)),
            state.term());
        assertEquals("problem", alarm.get().text("device_class"));
      }
    }
  }

  @Test
  void everySortOfEventIsDeclaredAndItsTemplateGivesWhatTheHubWants() {
    HubEntity journal = ALL.stream().filter(e -> e.id().equals("journal")).findFirst().get();
    List<String> declared =
        StreamSupport.stream(journal.node().path("event_types").spliterator(), false)
            .map(JsonNode::textValue)
            .toList();
    Set<String> occurring = new HashSet<>();
    SchemasTest.events()
        .forEach(
            event -> {
              String document = new String(EventDocument.numbered(event, 1, "1"), UTF_8);
              occurring.add(
                  Sent.json(journal.value(document).getBytes(UTF_8))
                      .path("event_type")
                      .textValue());
            });
    assertEquals(occurring, Set.copyOf(declared));
  }

  /** Every end of every range is a command of the schema's, which the reader takes. */
  @Test
  void everyCommandThatIsOfferedFitsTheSchema() {
    Set<String> types = new HashSet<>();
    for (HubEntity entity : ALL) {
      for (String command : entity.has("command_topic") ? entity.commands() : List.<String>of()) {
        assertEquals("limnostat/garden/command", entity.text("command_topic"));
        assertEquals(List.of(), Sent.faults("command", command.getBytes(UTF_8)), command);
        Command.Request read = CommandReader.read(command.getBytes(UTF_8), "test");
        assertFalse(read.command() instanceof Command.Unreadable, command);
        types.add(read.type());
      }
    }
    assertEquals(
        Set.of(
            "mode",
            "target",
            "superchlorinate",
            "test_result",
            "function_check",
            "acknowledge",
            "reset"),
        types);
  }

  /** Nothing is offered that would only be refused; what can be read is shown all the same. */
  @Test
  void onlyWhatIsAllowedIsOffered() {
    List<HubEntity> none = HubEntity.of(document(at(type -> false, false)));
    assertTrue(none.stream().noneMatch(e -> e.has("command_topic")));
    Map<String, String> platforms =
        none.stream().collect(Collectors.toMap(HubEntity::id, e -> e.text("platform")));
    for (String id : List.of("mode", "target", "superchlorination")) {
      assertEquals("sensor", platforms.get(id), id);
    }
    List<HubEntity> off = HubEntity.of(document(at(type -> type.equals("off"), false)));
    assertEquals(
        List.of("{\"type\":\"mode\",\"mode\":\"off\"}"),
        off.stream()
            .filter(e -> e.has("command_topic"))
            .flatMap(e -> e.commands().stream())
            .toList());
  }

  @Test
  void theTargetEndsAtTheInstallersLimit() {
    HubEntity target = ALL.stream().filter(e -> e.id().equals("target")).findFirst().get();
    assertEquals(
        TestSettings.pool().limits().targetMaxMgL(), target.node().path("max").doubleValue());
  }

  /** What a water test can be is the same here, in the schema and in the scan. */
  @Test
  void theRangesOfATestAreTheSchemas() {
    JsonNode schema = Sent.json(Schemas.file("command").getBytes(UTF_8)).at("/$defs/testResult");
    List<Control> tests =
        Control.of(TestSettings.pool()).stream()
            .filter(c -> c.type().equals("test_result"))
            .filter(c -> c.form() instanceof Point.Quantity)
            .toList();
    assertEquals(8, tests.size());
    for (Control test : tests) {
      JsonNode field = schema.path("properties").path(test.field());
      assertEquals(field.path("minimum").doubleValue(), test.min(), test.field());
      assertEquals(field.path("maximum").doubleValue(), test.max(), test.field());
    }
  }

  @Test
  void theAvailabilityIsTheHomieDevicesWhereThereIsOne() {
    JsonNode own = document(at(type -> true, false)).at("/availability/0");
    assertEquals("limnostat/garden/availability", own.path("topic").textValue());
    JsonNode homie = document(at(type -> true, true)).at("/availability/0");
    assertEquals("homie/5/limnostat-garden/$state", homie.path("topic").textValue());
    for (String state : List.of("init", "ready", "disconnected", "lost", "")) {
      assertEquals(
          homie
              .path(state.equals("ready") ? "payload_available" : "payload_not_available")
              .textValue(),
          HubTemplate.render(homie.path("value_template").textValue(), state));
    }
  }

  @Test
  void itIsNoLargerThanTheLinkTakes() {
    int bytes = HubDocument.of(at(type -> true, true)).length;
    assertTrue(bytes < 1 << 17, bytes + " bytes");
    assertEquals(
        "homeassistant/device/limnostat-garden/config",
        HubDocument.topic("homeassistant", at(type -> true, true)));
  }

  /** The resolver of these tests must not be kinder than a hub. */
  @Test
  void aTemplateThatNamesNothingIsAnError() {
    assertThrows(AssertionError.class, () -> HubTemplate.render("{{ value_json.none }}", STATE));
    assertThrows(AssertionError.class, () -> HubTemplate.render("{{ now() }}", STATE));
    assertThrows(AssertionError.class, () -> HubTemplate.render("plain", STATE));
  }
}
