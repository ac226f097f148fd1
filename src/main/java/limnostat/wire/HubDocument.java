package limnostat.wire;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.safety.Cause;

/**
 * One device with all its entities, in the device-based discovery of the common open-source
 * home-automation hub. The templates use only three forms: {@code {{ value_json.a.b }}}, {@code {{
 * value_json.a in ['x', 'y'] }}}, and {@code {{ value }}} for values that are sent.
 */
public final class HubDocument {
  /**
   * Three publishing periods of the daemon, s. A frozen daemon is noticed even if its connection is
   * still up.
   */
  static final int STATE_EXPIRES_S = 30;

  /** The same for values that are published every minute, s. */
  static final int HEALTH_EXPIRES_S = 180;

  /** How the hub's templates write true and false. */
  static final String TRUE = "True";

  static final String FALSE = "False";

  private final Installation at;
  private final ObjectNode components = object();

  private HubDocument(Installation at) {
    this.at = at;
  }

  /** The topic on which it is published, retained. */
  public static String topic(String prefix, Installation at) {
    return prefix + "/device/" + at.deviceId() + "/config";
  }

  public static byte[] of(Installation at) {
    return new HubDocument(at).document().toString().getBytes(StandardCharsets.UTF_8);
  }

  private ObjectNode document() {
    ObjectNode document = object();
    document
        .putObject("device")
        .put("name", "Limnostat " + at.siteId())
        .put("model", "residual controller")
        .put("sw_version", at.version())
        .putArray("identifiers")
        .add(at.deviceId());
    document.putObject("origin").put("name", "Limnostat").put("sw_version", at.version());
    ObjectNode availability = document.putArray("availability").addObject();
    if (at.homie()) {
      availability
          .put("topic", HomieDevice.stateTopic(at))
          .put("value_template", "{{ value in ['" + HomieDevice.READY + "'] }}")
          .put("payload_available", TRUE)
          .put("payload_not_available", FALSE);
    } else {
      availability
          .put("topic", at.topic("availability"))
          .put("payload_available", "online")
          .put("payload_not_available", "offline");
    }
    document.put("qos", 1);
    Point.OF_STATE.forEach(this::reading);
    at.shown().forEach(this::reading);
    at.controls().forEach(this::control);
    health();
    Installation.alarms().forEach(this::alarm);
    event();
    buttons();
    document.set("components", components);
    return document;
  }

  private ObjectNode entity(String platform, String id, String name) {
    return components
        .putObject(id)
        .put("platform", platform)
        .put("unique_id", at.deviceId() + "-" + id)
        .put("name", name);
  }

  private void reading(Point point) {
    ObjectNode entity;
    if (point.form() instanceof Point.Flag flag) {
      entity = flag(point.id(), point.name(), flag.deviceClass());
      entity.put("value_template", value(point.path()));
    } else {
      entity = entity("sensor", point.id(), point.name());
      entity.put("value_template", value(point.path()));
      describe(entity, point.form());
    }
    entity.put("state_topic", at.topic("state")).put("expire_after", STATE_EXPIRES_S);
    if (point.diagnostic()) {
      entity.put("entity_category", "diagnostic");
    }
  }

  private static void describe(ObjectNode sensor, Point.Form form) {
    if (form instanceof Point.Quantity quantity) {
      unit(sensor, quantity);
      given(sensor, "device_class", quantity.deviceClass());
      sensor
          .put("state_class", quantity.sums() ? "total_increasing" : "measurement")
          .put("suggested_display_precision", quantity.decimals());
    } else if (form instanceof Point.Word word) {
      sensor.put("device_class", "enum");
      strings(sensor.putArray("options"), word.words());
    }
  }

  private void control(Control control) {
    ObjectNode entity;
    if (control.form() instanceof Point.Word word) {
      entity = entity("select", control.id(), control.name());
      strings(entity.putArray("options"), word.words());
    } else {
      entity = entity("number", control.id(), control.name());
      entity
          .put("min", control.min())
          .put("max", control.max())
          .put("step", control.step())
          .put("mode", "box");
      if (control.form() instanceof Point.Quantity quantity) {
        unit(entity, quantity);
      }
    }
    entity.put("command_topic", at.topic("command")).put("command_template", control.template());
    if (control.shows().isPresent()) {
      entity
          .put("state_topic", at.topic("state"))
          .put("value_template", value(control.shows().get().path()));
    }
  }

  private void health() {
    flag("ledger_failing", "Ledger cannot be written", "problem")
        .put("value_template", value("ledger_failing"))
        .put("state_topic", at.topic("health"))
        .put("expire_after", HEALTH_EXPIRES_S)
        .put("entity_category", "diagnostic");
    entity("sensor", "late_scans", "Late scans")
        .put("value_template", value("late"))
        .put("state_topic", at.topic("health"))
        .put("expire_after", HEALTH_EXPIRES_S)
        .put("state_class", "total_increasing")
        .put("entity_category", "diagnostic");
  }

  /** On while the alarm needs a person. The alarm document supplies the attributes. */
  private void alarm(Cause alarm) {
    String asking =
        List.of(
                AlarmState.UNACKNOWLEDGED,
                AlarmState.ACKNOWLEDGED,
                AlarmState.RETURNED_UNACKNOWLEDGED,
                AlarmState.LATCHED)
            .stream()
            .map(state -> "'" + state.term() + "'")
            .collect(Collectors.joining(", ", "[", "]"));
    String topic = at.topic("alarm/" + alarm.id());
    flag("alarm_" + alarm.id(), "Alarm: " + alarm.title(), "problem")
        .put("state_topic", topic)
        .put("value_template", "{{ value_json.state in " + asking + " }}")
        .put("json_attributes_topic", topic);
  }

  /** The journal. The template produces the JSON that the hub expects for an event. */
  private void event() {
    ObjectNode event =
        entity("event", "journal", "Journal")
            .put("state_topic", at.topic("event"))
            .put("value_template", "{\"event_type\":\"{{ value_json.event }}\"}")
            .put("json_attributes_topic", at.topic("event"));
    strings(event.putArray("event_types"), EventDocument.KINDS);
  }

  private void buttons() {
    if (at.allows().test("off") && !at.allows().test("mode")) {
      press("mode_off", "Off")
          .put("payload_press", command("mode").put("mode", Mode.OFF.key()).toString());
    }
    if (at.allows().test("function_check")) {
      press("function_check_on", "Function check, 45 minutes", "function_check", "minutes", 45);
      press("function_check_off", "Function check is over", "function_check", "minutes", 0);
    }
    if (at.allows().test("acknowledge")) {
      for (Cause alarm : Installation.alarms()) {
        press("acknowledge_" + alarm.id(), "Acknowledge: " + alarm.title())
            .put("payload_press", command("acknowledge").put("alarm", alarm.id()).toString());
      }
    }
    if (at.allows().test("reset")) {
      for (Cause cause : Installation.resettable()) {
        press("reset_" + cause.id(), "Reset: " + cause.title())
            .put("payload_press", command("reset").put("interlock", cause.id()).toString());
      }
    }
  }

  private void press(String id, String name, String type, String field, int value) {
    press(id, name).put("payload_press", command(type).put(field, value).toString());
  }

  private ObjectNode press(String id, String name) {
    return entity("button", id, name)
        .put("command_topic", at.topic("command"))
        .put("entity_category", "config");
  }

  private ObjectNode flag(String id, String name, String deviceClass) {
    ObjectNode flag =
        entity("binary_sensor", id, name).put("payload_on", TRUE).put("payload_off", FALSE);
    given(flag, "device_class", deviceClass);
    return flag;
  }

  private static void unit(ObjectNode entity, Point.Quantity quantity) {
    given(entity, "unit_of_measurement", quantity.unit());
  }

  private static void given(ObjectNode entity, String key, String value) {
    if (!value.isEmpty()) {
      entity.put(key, value);
    }
  }

  private static String value(String path) {
    return "{{ value_json." + path + " }}";
  }

  private static ObjectNode command(String type) {
    return object().put("type", type);
  }

  private static void strings(ArrayNode array, Collection<String> texts) {
    texts.forEach(array::add);
  }

  private static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }
}
