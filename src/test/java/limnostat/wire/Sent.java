package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.TextNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** What was sent, held against its schema by a validator of others. */
public final class Sent {
  private static final String BASE = "limnostat:/schema/";

  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12,
          builder ->
              builder.schemas(
                  iri ->
                      iri.startsWith(BASE)
                          ? Schemas.file(iri.substring(BASE.length()).replace(".json", ""))
                          : null));

  private static final Map<String, Schema> SCHEMAS = new ConcurrentHashMap<>();

  private Sent() {}

  /**
   * @param topic below the site's
   */
  public static void check(String topic, byte[] payload) {
    String name = topic.startsWith("alarm/") ? "alarm" : topic;
    assertEquals(List.of(), faults(name, payload), () -> topic + " " + text(payload));
  }

  static List<String> faults(String name, byte[] payload) {
    return faults(name, name.equals("availability") ? new TextNode(text(payload)) : json(payload));
  }

  static List<String> faults(String name, JsonNode document) {
    return SCHEMAS
        .computeIfAbsent(name, n -> REGISTRY.getSchema(SchemaLocation.of(BASE + n + ".json")))
        .validate(
            document,
            context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)))
        .stream()
        .map(Object::toString)
        .toList();
  }

  static JsonNode json(byte[] payload) {
    try {
      return Json.MAPPER.readTree(text(payload));
    } catch (JsonProcessingException e) {
      throw new AssertionError("not JSON: " + text(payload), e);
    }
  }

  private static String text(byte[] payload) {
    return new String(payload, StandardCharsets.UTF_8);
  }
}
