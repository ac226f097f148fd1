package limnostat.wire;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import limnostat.alarm.AlarmState;
import limnostat.scan.Command;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** By the Homie convention, version 5.0.0 (read). */
class HomieDeviceTest {
  private static final String ROOT = "homie/5/limnostat-garden/";
  private static final HomieDevice DEVICE = new HomieDevice(HubDocumentTest.at(type -> true, true));

  /** Properties by node and id. */
  static Map<String, JsonNode> properties(byte[] description) {
    Map<String, JsonNode> properties = new TreeMap<>();
    Sent.json(description)
        .path("nodes")
        .properties()
        .forEach(
            node ->
                node.getValue()
                    .path("properties")
                    .properties()
                    .forEach(p -> properties.put(node.getKey() + "/" + p.getKey(), p.getValue())));
    return properties;
  }

  @Test
  void theDescriptionIsWhatTheConventionAsksFor() {
    JsonNode document = Sent.json(DEVICE.description());
    assertEquals("5.0", document.path("homie").textValue());
    assertTrue(document.path("version").isIntegralNumber());
    Map<String, JsonNode> properties = properties(DEVICE.description());
    assertTrue(properties.size() > 60, "" + properties.size());
    properties.forEach(
        (id, property) -> {
          assertTrue(id.matches("[a-z0-9-]+/[a-z0-9-]+"), id);
          String type = property.path("datatype").textValue();
          assertTrue(Set.of("float", "boolean", "enum").contains(type), id);
          assertEquals(
              type.equals("enum"),
              property.path("format").asText().matches("[a-z_-]+(,[a-z_-]+)+"),
              property.toString());
        });
    assertEquals("1:5", properties.get("control/target").path("format").textValue());
  }

  @Test
  void theVersionChangesWithTheDocument() {
    assertEquals(version(DEVICE), version(new HomieDevice(HubDocumentTest.at(t -> true, true))));
    assertNotEquals(
        version(DEVICE), version(new HomieDevice(HubDocumentTest.at(t -> false, true))));
  }

  private static long version(HomieDevice device) {
    return Sent.json(device.description()).path("version").longValue();
  }

  /** Each retained property has its topic, and each topic its property. */
  @Test
  void theValuesAreOfTheirTypes() {
    Map<String, JsonNode> properties = properties(DEVICE.description());
    Map<String, byte[]> values = DEVICE.values(HubDocumentTest.STATE.getBytes(UTF_8));
    Set<String> retained = new java.util.TreeSet<>();
    properties.forEach(
        (id, property) -> {
          if (property.path("retained").asBoolean(true)) {
            retained.add(ROOT + id);
          }
        });
    retained.add(ROOT + "$description");
    assertEquals(retained, new java.util.TreeSet<>(DEVICE.topics()));
    assertEquals(DEVICE.topics().get(0), DEVICE.descriptionTopic());
    int told = 0;
    for (Map.Entry<String, byte[]> value : values.entrySet()) {
      JsonNode property = properties.get(value.getKey().substring(ROOT.length()));
      String text = new String(value.getValue(), UTF_8);
      assertTrue(text.isEmpty() || fits(property, text), property + " " + text);
      told += text.isEmpty() ? 0 : 1;
    }
    assertEquals(values.size() - 4, told, "no probe and no pyranometer");
    for (AlarmState state : AlarmState.values()) {
      assertTrue(
          fits(properties.get("alarms/orp-high"), new String(HomieDevice.alarm(state), UTF_8)));
    }
  }

  static boolean fits(JsonNode property, String text) {
    return switch (property.path("datatype").textValue()) {
      case "float" -> Double.isFinite(Double.parseDouble(text));
      case "boolean" -> text.equals("true") || text.equals("false");
      default -> List.of(property.path("format").textValue().split(",")).contains(text);
    };
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "control/mode;off;{\"type\":\"mode\",\"mode\":\"off\"}",
        "control/target;3.2;{\"type\":\"target\",\"free_chlorine_mg_l\":3.2}",
        "water-test/test-ph;7.4;{\"type\":\"test_result\",\"ph\":7.4}",
        "water-test/test-free-chlorine-quick;little;{\"type\":\"test_result\",\"free_chlorine_quick\":\"little\"}",
        "commands/acknowledge;orp_failure;{\"type\":\"acknowledge\",\"alarm\":\"orp_failure\"}",
        "commands/reset;cell_over_current;{\"type\":\"reset\",\"interlock\":\"cell_over_current\"}",
      })
  void whatIsSetIsACommand(String property, String value, String command) {
    byte[] document = DEVICE.command(ROOT + property + "/set", value.getBytes(UTF_8));
    assertEquals(command, new String(document, UTF_8));
    assertEquals(List.of(), Sent.faults("command", document));
    assertTrue(properties(DEVICE.description()).get(property).path("settable").booleanValue());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "homie/5/limnostat-garden/control/target/set;1e400",
        "homie/5/limnostat-garden/control/target/set;NaN",
        "homie/5/limnostat-garden/control/target/set;3\",\"x\":\"",
        "homie/5/limnostat-garden/control/mode/set;fast",
        "homie/5/limnostat-garden/water/ph/set;7",
        "homie/5/limnostat-garden/control/target;3",
        "homie/5/other/control/target/set;3",
        "x;3",
      })
  void anythingElseIsRefusedAsACommand(String topic, String value) {
    byte[] document = DEVICE.command(topic, value.getBytes(UTF_8));
    assertInstanceOf(
        Command.Unreadable.class, CommandReader.read(document, "test").command(), topic);
  }

  @Test
  void whatIsNotAllowedIsNotSettable() {
    HomieDevice none = new HomieDevice(HubDocumentTest.at(type -> false, true));
    Map<String, JsonNode> properties = properties(none.description());
    assertTrue(properties.values().stream().noneMatch(p -> p.path("settable").asBoolean()));
    assertTrue(properties.containsKey("control/mode"));
    assertFalse(properties.containsKey("commands/reset"));
    assertInstanceOf(
        Command.Unreadable.class,
        CommandReader.read(none.command(ROOT + "control/mode/set", "off".getBytes(UTF_8)), "t")
            .command());
  }
}
