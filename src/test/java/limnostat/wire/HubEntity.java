package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.StreamSupport;

/** One entity of a discovery document, as a hub takes it. */
public record HubEntity(String id, JsonNode node) {
  /** The unit that a field of ours has in its name; its end. */
  private static final Map<String, String> UNITS =
      Map.of(
          "mg/L", "_mg_l",
          "mV", "_mv",
          "°C", "_c",
          "s", "_s",
          "g", "_g",
          "mL", "_ml",
          "W/m²", "_w_m2",
          "mg/L/d", "_mg_l_day",
          "mL/d", "_ml_day");

  /** Units that the hub takes with a class (its documentation, as read). */
  private static final Map<String, String> CLASSES =
      Map.of(
          "voltage", "mV",
          "temperature", "°C",
          "irradiance", "W/m²",
          "duration", "s",
          "volume", "mL",
          "ph", "");

  /** All of a document; what each has to have is looked at. */
  public static List<HubEntity> of(JsonNode document) {
    assertTrue(document.at("/device/identifiers/0").isTextual(), "device.identifiers");
    assertTrue(document.at("/origin/name").isTextual(), "origin.name");
    List<HubEntity> entities = new ArrayList<>();
    document
        .path("components")
        .properties()
        .forEach(e -> entities.add(of(e.getKey(), e.getValue())));
    assertEquals(
        entities.size(),
        entities.stream().map(e -> e.text("unique_id")).distinct().count(),
        "unique_id");
    return entities;
  }

  private static HubEntity of(String id, JsonNode node) {
    HubEntity entity = new HubEntity(id, node);
    assertTrue(id.matches("[a-z0-9_]+"), id);
    for (String field : List.of("platform", "unique_id", "name")) {
      assertFalse(entity.text(field).isEmpty(), id + " has no " + field);
    }
    switch (entity.text("platform")) {
      case "sensor" -> entity.sensor();
      case "binary_sensor" ->
          assertTrue(entity.has("state_topic") && entity.has("value_template"), id);
      case "number" ->
          assertTrue(
              node.path("step").doubleValue() >= 0.001
                  && node.path("min").doubleValue() < node.path("max").doubleValue(),
              "min, max and step are always given: " + node);
      case "select" -> assertFalse(entity.options().isEmpty(), id);
      case "button" -> assertTrue(entity.has("payload_press"), id);
      case "event" -> assertFalse(node.path("event_types").isEmpty(), id);
      default -> throw new AssertionError("another platform: " + node);
    }
    assertTrue(
        entity.has("command_topic")
            == Set.of("number", "select", "button").contains(entity.text("platform")),
        id);
    assertTrue(Set.of("", "diagnostic", "config").contains(entity.text("entity_category")), id);
    return entity;
  }

  private void sensor() {
    if (text("device_class").equals("enum")) {
      assertFalse(options().isEmpty() || has("unit_of_measurement") || has("state_class"), id);
    } else if (has("device_class")) {
      assertEquals(CLASSES.get(text("device_class")), text("unit_of_measurement"), id);
      // Of these only a volume may be a sum (the hub's source, as read: the state classes of each
      // device class); and a volume is nothing else.
      assertEquals(
          text("device_class").equals("volume") ? "total_increasing" : "measurement",
          text("state_class"),
          id);
    }
    if (has("unit_of_measurement")) {
      String path = text("value_template").replace(" }}", "");
      assertTrue(path.endsWith(UNITS.get(text("unit_of_measurement"))), node.toString());
    }
    assertFalse(text("entity_category").equals("config"), id);
  }

  public boolean has(String field) {
    return node.has(field);
  }

  public String text(String field) {
    return node.path(field).asText();
  }

  public List<String> options() {
    return StreamSupport.stream(node.path("options").spliterator(), false)
        .map(JsonNode::textValue)
        .toList();
  }

  /** The value that the hub would show; of the kind that was told. */
  public String value(String payload) {
    String value = HubTemplate.render(text("value_template"), payload);
    boolean right =
        switch (text("platform")) {
          case "binary_sensor" ->
              value.equals(text("payload_on")) || value.equals(text("payload_off"));
          case "event" -> value.startsWith("{\"event_type\":");
          case "select" -> options().contains(value);
          default ->
              text("device_class").equals("enum")
                  ? options().contains(value)
                  : value.equals("None") || Double.isFinite(Double.parseDouble(value));
        };
    assertTrue(right, id + " shows " + value);
    return value;
  }

  /** All that a person could send with it: each end, each option. */
  public List<String> commands() {
    if (text("platform").equals("button")) {
      return List.of(text("payload_press"));
    }
    List<String> values = has("options") ? options() : List.of(text("min"), text("max"));
    return values.stream().map(v -> HubTemplate.render(text("command_template"), v)).toList();
  }
}
