package limnostat.wire;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.zip.CRC32;
import limnostat.alarm.AlarmState;
import limnostat.safety.Cause;

/**
 * The installation as a device of the Homie convention, version 5. Its topics carry the values of
 * the state and alarm documents. A value that these do not contain is absent.
 */
public final class HomieDevice {
  /** Values of {@code $state}. */
  public static final String INIT = "init";

  public static final String READY = "ready";
  public static final String DISCONNECTED = "disconnected";
  public static final String LOST = "lost";

  private static final Point.Word ALARM =
      new Point.Word(
          List.of(AlarmState.values()).stream().map(AlarmState::term).distinct().toList());

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final Installation at;
  private final List<Point> points = new ArrayList<>(Point.OF_STATE);
  private final Map<String, Function<String, ObjectNode>> settable = new LinkedHashMap<>();

  public HomieDevice(Installation at) {
    this.at = at;
    at.controls().forEach(c -> c.shows().ifPresent(points::add));
    points.addAll(at.shown());
    for (Control control : at.controls()) {
      settable.put(subtopic(node(control), control.id()), control::command);
    }
    if (at.allows().test("acknowledge")) {
      settable.put("commands/acknowledge", v -> command("acknowledge").put("alarm", v));
    }
    if (at.allows().test("reset")) {
      settable.put("commands/reset", v -> command("reset").put("interlock", v));
    }
  }

  static String stateTopic(Installation at) {
    return "homie/5/" + at.deviceId() + "/$state";
  }

  public String stateTopic() {
    return stateTopic(at);
  }

  public String descriptionTopic() {
    return topic("$description");
  }

  /**
   * Each topic on which other programs may set a value, so that no other topic has to be subscribed
   * to.
   */
  public List<String> setTopics() {
    return settable.keySet().stream().map(property -> topic(property + "/set")).toList();
  }

  /** Every retained topic except {@code $state}, the description first. */
  public List<String> topics() {
    List<String> topics = new ArrayList<>(List.of(descriptionTopic()));
    points.forEach(point -> topics.add(topic(point)));
    Installation.alarms().forEach(alarm -> topics.add(alarmTopic(alarm)));
    return topics;
  }

  /** The {@code $description} document. Its version changes whenever its content does. */
  public byte[] description() {
    ObjectNode document = NODES.objectNode();
    document.put("homie", "5.0").put("name", "Limnostat " + at.siteId());
    ObjectNode nodes = document.putObject("nodes");
    for (Point point : points) {
      ObjectNode property = property(nodes, point.node(), point.id(), point.name(), point.form());
      at.controls().stream()
          .filter(c -> c.shows().equals(Optional.of(point)))
          .forEach(c -> settable(property, c));
    }
    for (Cause alarm : Installation.alarms()) {
      property(nodes, "alarms", alarm.id(), alarm.title(), ALARM);
    }
    for (Control control : at.controls()) {
      if (control.shows().isEmpty()) {
        ObjectNode property =
            property(nodes, "water-test", control.id(), control.name(), control.form());
        settable(property, control);
        property.put("retained", false);
      }
    }
    choice(nodes, "acknowledge", "Acknowledge an alarm", Installation.alarms());
    choice(nodes, "reset", "Reset an interlock", Installation.resettable());
    CRC32 version = new CRC32();
    version.update(document.toString().getBytes(StandardCharsets.UTF_8));
    document.put("version", version.getValue());
    return document.toString().getBytes(StandardCharsets.UTF_8);
  }

  /**
   * The values of a state document by topic. An empty payload means that there is no value.
   *
   * @param state as {@link StateDocument#of} wrote it
   */
  public Map<String, byte[]> values(byte[] state) {
    JsonNode tree;
    try {
      tree = Json.MAPPER.readTree(state);
    } catch (IOException e) {
      throw new IllegalArgumentException("no state document", e);
    }
    Map<String, byte[]> values = new LinkedHashMap<>();
    for (Point point : points) {
      JsonNode value = tree.at("/" + point.path().replace('.', '/'));
      String text = value.isMissingNode() || value.isNull() ? "" : word(value.asText());
      values.put(topic(point), bytes(text));
    }
    return values;
  }

  public String alarmTopic(Cause alarm) {
    return topic(subtopic("alarms", alarm.id()));
  }

  /** The payload for an alarm's topic. */
  public static byte[] alarm(AlarmState state) {
    return bytes(word(state.term()));
  }

  /**
   * The command document for a value that was sent to a property. The reader refuses it if the
   * value is not valid.
   *
   * @param topic the topic it arrived on, including {@code /set}
   */
  public byte[] command(String topic, byte[] value) {
    String text = new String(value, StandardCharsets.UTF_8);
    String root = topic("");
    Function<String, ObjectNode> command =
        topic.startsWith(root) && topic.endsWith("/set")
            ? settable.get(topic.substring(root.length(), topic.length() - "/set".length()))
            : null;
    ObjectNode document = command == null ? command(topic) : command.apply(text);
    return bytes(document.toString());
  }

  private ObjectNode property(
      ObjectNode nodes, String node, String id, String name, Point.Form form) {
    ObjectNode property =
        nodes
            .withObjectProperty(segment(node))
            .withObjectProperty("properties")
            .putObject(segment(id));
    ((ObjectNode) nodes.get(segment(node))).put("name", node);
    property.put("name", name);
    if (form instanceof Point.Quantity quantity) {
      property.put("datatype", "float");
      if (!quantity.unit().isEmpty()) {
        property.put("unit", quantity.unit());
      }
    } else if (form instanceof Point.Word word) {
      property.put("datatype", "enum").put("format", words(word.words()));
    } else {
      property.put("datatype", "boolean");
    }
    return property;
  }

  private static void settable(ObjectNode property, Control control) {
    property.put("settable", true);
    if (control.form() instanceof Point.Quantity) {
      property.put("format", plain(control.min()) + ":" + plain(control.max()));
    }
  }

  private void choice(ObjectNode nodes, String id, String name, List<Cause> causes) {
    if (settable.containsKey("commands/" + id)) {
      property(nodes, "commands", id, name, new Point.Word(causes.stream().map(Cause::id).toList()))
          .put("settable", true)
          .put("retained", false);
    }
  }

  private static String node(Control control) {
    return control.shows().map(Point::node).orElse("water-test");
  }

  private String topic(Point point) {
    return topic(subtopic(point.node(), point.id()));
  }

  private static String subtopic(String node, String id) {
    return segment(node) + "/" + segment(id);
  }

  private String topic(String subtopic) {
    return "homie/5/" + at.deviceId() + "/" + subtopic;
  }

  /** Homie ids consist of letters, digits and hyphens. */
  private static String segment(String id) {
    return id.replace('_', '-');
  }

  private static String words(List<String> words) {
    return words.stream().map(HomieDevice::word).collect(Collectors.joining(","));
  }

  /** An enum value with hyphens in place of blanks. */
  private static String word(String term) {
    return term.replace(' ', '-');
  }

  private static String plain(double number) {
    return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
  }

  private static ObjectNode command(String type) {
    return NODES.objectNode().put("type", type);
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
