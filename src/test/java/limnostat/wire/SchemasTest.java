package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import limnostat.account.DoseTotals;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.estimate.Addition;
import limnostat.estimate.Additions;
import limnostat.estimate.Glance;
import limnostat.estimate.Product;
import limnostat.estimate.SunForecast;
import limnostat.estimate.TestDue;
import limnostat.estimate.TestKit;
import limnostat.estimate.UnfedChlorine;
import limnostat.measure.Status;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.Priority;
import limnostat.scan.Answers;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class SchemasTest {
  private static final Path MQTT_PAGE = Path.of("src/site/markdown/mqtt.md");

  private static final DoseTotals A_DAY =
      DoseTotals.START
          .step(new DoseTotals.Amounts(0, 0), 20_000, true, 1)
          .totals()
          .step(new DoseTotals.Amounts(12, 30), 20_000, true, 1)
          .totals();

  private static JsonNode file(String name) {
    return Sent.json(Schemas.file(name).getBytes(StandardCharsets.UTF_8));
  }

  static List<String> schemas() {
    return Schemas.NAMES.stream().filter(name -> !name.equals(Schemas.TOPICS)).toList();
  }

  private static List<String> texts(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false).map(JsonNode::textValue).toList();
  }

  /** The standard's own schema of schemas. */
  @ParameterizedTest
  @MethodSource("schemas")
  void eachIsAJsonSchemaOf2020(String name) {
    assertEquals(
        List.of(),
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"))
            .validate(file(name)));
    assertEquals("limnostat:/schema/" + name + ".json", file(name).path("$id").textValue());
  }

  @Test
  void theWordsAreThoseOfTheProgram() {
    words("cause", Cause.values(), Cause::id);
    words("priority", Priority.values(), Priority::key);
    words("alarmState", AlarmState.values(), AlarmState::term);
    words("mode", Mode.values(), Mode::key);
    words("control_level", ControlLevel.values(), ControlLevel::key);
    words("status", Status.values(), Status::term);
    words("testDue", TestDue.values(), TestDue::key);
    words("output", Output.values(), Output::key);
    words("product", Product.values(), Product::key);
    words("glance", Glance.values(), Glance::key);
    words("kit", TestKit.NAMED.toArray(TestKit[]::new), TestKit::key);
  }

  private static <E> void words(String name, E[] values, Function<E, String> word) {
    assertEquals(
        Arrays.stream(values).map(word).distinct().toList(),
        texts(file(Schemas.VOCABULARY).path("$defs").path(name).path("enum")),
        "src/main/resources/limnostat/schema/vocabulary.json, $defs." + name);
  }

  private static Additions.Entered entered() {
    return Additions.NONE.entered(
        50,
        ScanState.start(TestSettings.pool()).estimate(),
        Product.LIQUID_CHLORINE,
        1000,
        12.5,
        600);
  }

  private static Addition addition() {
    return entered().addition();
  }

  static List<ScanEvent> events() {
    Command.Request request =
        new Command.Request(Optional.of("a7"), "target", "mqtt", "{}", new Command.SetTarget(3));
    return List.of(
        new ScanEvent.AlarmChanged(
            Cause.ORP_HIGH,
            AlarmState.NORMAL,
            AlarmState.RETURNED_UNACKNOWLEDGED,
            Optional.of("3.1 mg/L"),
            true,
            true),
        new ScanEvent.AlarmFlood(true),
        new ScanEvent.SetpointChanged("manual_duty", 0.2, 0.3, "mqtt"),
        new ScanEvent.DayEnded(A_DAY),
        new ScanEvent.AdditionEntered(addition()),
        new ScanEvent.AdditionUndone(addition()),
        new ScanEvent.AdditionSuspected(new UnfedChlorine(5.5, 2.1, 0.4, 0)),
        new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF),
        new ScanEvent.ControlLevelChanged(ControlLevel.PLAN, ControlLevel.NONE),
        new ScanEvent.Accepted(request, Optional.of("but"), Optional.of(entered().additions())),
        new ScanEvent.Refused(request, "no"),
        new ScanEvent.AnsweredAgain(request, new Answers.Answer("a7", 1, true, "but", 5)),
        new ScanEvent.Tripped(Cause.NO_FLOW, false),
        new ScanEvent.Interrupted(90.5));
  }

  @Test
  void eachSortOfEventHasAShape() {
    assertEquals(
        List.of(ScanEvent.class.getPermittedSubclasses()),
        events().stream().<Class<?>>map(Object::getClass).toList());
    for (ScanEvent event : events()) {
      byte[] document = EventDocument.numbered(event, 1.5, "5-1");
      Sent.check("event", document);
      boolean answer =
          event instanceof ScanEvent.Accepted
              || event instanceof ScanEvent.Refused
              || event instanceof ScanEvent.AnsweredAgain;
      assertEquals(answer, Sent.faults("result", document).isEmpty(), event.toString());
      assertStrict("event", document);
    }
    ObjectNode refused =
        (ObjectNode)
            Sent.json(
                EventDocument.numbered(
                    new ScanEvent.Refused(((ScanEvent.Accepted) events().get(9)).request(), "no"),
                    1,
                    "1"));
    refused.remove("reason");
    assertNotEquals(List.of(), Sent.faults("result", refused), "a refusal has a reason");
  }

  @Test
  void theOtherDocumentsHaveTheirShapes() {
    byte[] health = new HealthDocument(9, 1, 2, 0.1, 0.2, 3, 1, false, 0.3, 4, 5, 6, 7).at(7);
    Sent.check("health", health);
    assertStrict("health", health);
    byte[] day = DayDocument.of(A_DAY, 7);
    Sent.check("day", day);
    assertStrict("day", day);
    for (Cause cause : Cause.values()) {
      for (AlarmState state : AlarmState.values()) {
        byte[] alarm =
            AlarmDocument.of(cause, new AlarmDocument.Shown(state, Optional.of("40 g")), 2);
        Sent.check("alarm/" + cause.id(), alarm);
        assertStrict("alarm", alarm);
      }
    }
    Sent.check("availability", "online".getBytes(StandardCharsets.UTF_8));
    assertNotEquals(List.of(), Sent.faults("availability", "on".getBytes(StandardCharsets.UTF_8)));
  }

  /** A field that the schema does not know, and each that it wants and is gone. */
  private static void assertStrict(String name, byte[] document) {
    ObjectNode more = (ObjectNode) Sent.json(document);
    for (String field : texts(file(name).path("required"))) {
      ObjectNode less = more.deepCopy();
      less.remove(field);
      assertNotEquals(List.of(), Sent.faults(name, less), name + " without " + field);
    }
    more.put("a_field_that_is_new", 1);
    assertNotEquals(List.of(), Sent.faults(name, more), name + " with a new field");
  }

  /** In the page on MQTT, and then in the page on additions. */
  private static List<String> pagesCommands() throws IOException {
    List<String> commands = new ArrayList<>();
    for (Path page : List.of(MQTT_PAGE, Path.of("src/site/markdown/additions.md"))) {
      Pattern.compile("^\\| `(\\{\"type\".*?})` \\|", Pattern.MULTILINE)
          .matcher(Files.readString(page))
          .results()
          .forEach((MatchResult m) -> commands.add(m.group(1)));
    }
    return commands;
  }

  /** Its table has a row for each field; deviations stand with what they belong to. */
  @Test
  void thePageNamesEveryFieldOfTheState() throws IOException {
    String page = Files.readString(MQTT_PAGE);
    String table =
        page.substring(page.indexOf("## Fields of `state`"), page.indexOf("## Commands over MQTT"));
    List<String> missing = new ArrayList<>();
    file("state")
        .path("properties")
        .fieldNames()
        .forEachRemaining(
            field -> {
              if (!table.contains("`" + field + "`")
                  && !table.contains("`" + field.replace("_sd_", "_") + "`")) {
                missing.add(field);
              }
            });
    assertEquals(List.of(), missing);
  }

  /** What the page shows as sent and taken fits its schema. */
  @Test
  void thePagesMessagesFit() throws IOException {
    List<MatchResult> messages =
        Pattern.compile("(?m)^limnostat/garden/(\\S+) (\\{.*})$")
            .matcher(Files.readString(MQTT_PAGE))
            .results()
            .toList();
    messages.forEach(m -> Sent.check(m.group(1), m.group(2).getBytes(StandardCharsets.UTF_8)));
    assertEquals(
        List.of("command", "event", "result"),
        messages.stream().map(m -> m.group(1)).distinct().toList());
  }

  /** What the page shows is read, fits, and is all that there is. */
  @Test
  void thePagesCommandsAreAll() throws IOException {
    List<String> types = new ArrayList<>();
    for (String command : pagesCommands()) {
      byte[] document = command.getBytes(StandardCharsets.UTF_8);
      assertEquals(List.of(), Sent.faults("command", document), command);
      assertStrict("command", document);
      assertFalse(
          CommandReader.read(document, "test").command() instanceof Command.Unreadable, command);
      types.add(Sent.json(document).path("type").textValue());
    }
    String known =
        assertInstanceOf(
                Command.Unreadable.class,
                CommandReader.read("{\"type\":\"?\"}".getBytes(StandardCharsets.UTF_8), "test")
                    .command())
            .reason();
    // What is calibrated decides what it takes, so that one type has two shapes.
    List<String> once = types.stream().distinct().toList();
    assertEquals("unknown type; it is one of " + String.join(", ", once), known);
    List<String> defined = new ArrayList<>();
    file("command")
        .path("$defs")
        .forEach(
            def -> {
              if (def.at("/properties/type/const").isTextual()) {
                defined.add(def.at("/properties/type/const").textValue());
              }
            });
    assertEquals(types, defined);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{}",
        "[]",
        "{\"type\":\"mode\",\"mode\":\"fast\"}",
        "{\"type\":\"target\"}",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":\"3\"}",
        "{\"type\":\"test_result\"}",
        "{\"type\":\"test_result\",\"ph\":null}",
        "{\"type\":\"test_result\",\"free_chlorine_mg_l\":3,\"kit\":\"eye\"}",
        "{\"type\":\"alarm_shelve\",\"alarm\":\"orp_failure\"}",
        "{\"type\":\"alarm_shelve\",\"alarm\":\"orp_failure\",\"minutes\":2,\"seconds\":120}",
        "{\"type\":\"sun_forecast\",\"from\":\"tomorrow\",\"clear_sky_fraction\":[0.4]}",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T06:00:00Z\",\"clear_sky_fraction\":[\"a\"]}",
        "{\"type\":\"acknowledge\",\"alarm\":\"orp_failure\",\"more\":1}",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":null}",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"much\"}",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"none\",\"free_chlorine_mg_l\":0}",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"none\",\"combined_chlorine_mg_l\":0}",
        "{\"type\":\"addition\",\"what\":\"dichlor\"}",
        "{\"type\":\"addition\",\"what\":\"soap\",\"amount_g\":5}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"amount_ml\":5}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"amount_g\":5,\"amount_ml\":null}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"amount_g\":\"5 g\"}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"amount_g\":5,\"packs\":1}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"packs\":1}",
        "{\"type\":\"addition\",\"what\":\"dichlor\",\"packs\":1,\"pack_ml\":5}",
        "{\"type\":\"addition\",\"what\":\"water_out\",\"packs\":1,\"pack_ml\":5}",
        "{\"type\":\"addition\",\"what\":\"water_out\",\"amount_l\":null}",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"at\":\"noon\"}",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"ago_minutes\":5,"
            + "\"at\":\"2026-06-01T06:00:00Z\"}",
        "{\"type\":\"addition_undo\"}",
        "{\"type\":\"addition_undo\",\"addition\":3}",
        "{\"type\":\"addition_list\",\"addition\":\"a3\"}",
      })
  void whatTheReaderRefusesDoesNotFit(String command) {
    byte[] document = command.getBytes(StandardCharsets.UTF_8);
    assertInstanceOf(
        Command.Unreadable.class, CommandReader.read(document, "test").command(), command);
    assertNotEquals(List.of(), Sent.faults("command", document), command);
  }

  /** The program's own bounds, which no installer's limit passes. */
  @Test
  void theRangesOfCommandsAreTheProgramsOwn() {
    JsonNode command = file("command").path("$defs");
    range(command.at("/target/properties/free_chlorine_mg_l"), HardBounds.TARGET_MIN_MG_L, 8);
    assertEquals(8, HardBounds.TARGET_MG_L);
    range(
        command.at("/superchlorinate/properties/free_chlorine_mg_l"),
        0,
        HardBounds.SUPERCHLORINATION_MG_L);
    range(
        command.at("/superchlorinate/properties/max_hours"),
        1,
        HardBounds.SUPERCHLORINATION_MAX_S / 3600);
    range(command.at("/functionCheck/properties/minutes"), 0, HardBounds.FUNCTION_CHECK_MAX_S / 60);
    range(
        command.at("/alarmShelve/properties/seconds"),
        HardBounds.SHELF_MIN_S,
        HardBounds.SHELF_MAX_S);
    range(
        command.at("/alarmShelve/properties/minutes"),
        HardBounds.SHELF_MIN_S / 60,
        HardBounds.SHELF_MAX_S / 60);
    JsonNode hours = command.at("/sunForecast/properties/clear_sky_fraction");
    assertEquals(SunForecast.HOURS_MAX, hours.path("maxItems").intValue());
    range(hours.path("items"), 0, SunForecast.FRACTION_MAX);
    JsonNode state = file("state").path("properties");
    assertEquals(
        HardBounds.SUPERCHLORINATION_MG_L, state.at("/superchlorination_mg_l/maximum").asDouble());
    assertEquals(
        HardBounds.SUPERCHLORINATION_MAX_S,
        state.at("/superchlorination_left_s/maximum").asDouble());
  }

  private static void range(JsonNode schema, double min, double max) {
    assertEquals(min, schema.path("minimum").doubleValue(), schema.toString());
    assertEquals(max, schema.path("maximum").doubleValue(), schema.toString());
  }

  /** With no other file at hand, and no place to fetch one from. */
  @ParameterizedTest
  @MethodSource("schemas")
  void aPrintedOneStandsAlone(String name) {
    var alone =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(Schemas.alone(name));
    Stream<byte[]> documents =
        switch (name) {
          case "event" -> events().stream().map(e -> EventDocument.numbered(e, 1.5, "5-1"));
          case "result" ->
              events().stream()
                  .filter(e -> e instanceof ScanEvent.Accepted)
                  .map(e -> EventDocument.numbered(e, 1.5, "5-1"));
          case "day" -> Stream.of(DayDocument.of(A_DAY, 7));
          case "command" ->
              Stream.of("{\"type\":\"mode\",\"mode\":\"off\"}".getBytes(StandardCharsets.UTF_8));
          default -> Stream.of();
        };
    documents.forEach(document -> assertEquals(List.of(), alone.validate(Sent.json(document))));
    boolean anythingGoes = name.equals(Schemas.VOCABULARY);
    assertEquals(
        anythingGoes,
        alone.validate(Sent.json("{\"x\":1}".getBytes(StandardCharsets.UTF_8))).isEmpty());
    assertTrue(Schemas.alone(name).endsWith("}\n"));
  }
}
