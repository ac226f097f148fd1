package limnostat.wire;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * The shapes of all documents that the program sends or accepts, as JSON Schema (2020-12), and its
 * topics, as AsyncAPI 3.0. They are files in the jar.
 */
public final class Schemas {
  /** The document that describes the topics; the others are schemas. */
  public static final String TOPICS = "asyncapi";

  /** The definitions that the others share. */
  static final String VOCABULARY = "vocabulary";

  /** The names of all documents. A schema is named after its topic. */
  public static final List<String> NAMES =
      List.of(
          "state",
          "alarm",
          "event",
          "day",
          "reading",
          "result",
          "health",
          "availability",
          "command",
          VOCABULARY,
          TOPICS);

  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  private Schemas() {}

  /**
   * A file as it is. It refers to other files by name.
   *
   * @param name one of {@link #NAMES}
   */
  public static String file(String name) {
    String path = "/limnostat/schema/" + name + ".json";
    try (InputStream in = Schemas.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("the jar has no " + path);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("reading " + path + " of the jar", e);
    }
  }

  /**
   * A self-contained schema. What it refers to is embedded in its {@code $defs}, each with its own
   * id (a compound document, JSON Schema 2020-12 core, section 9.3). The topics document is
   * returned unchanged.
   */
  public static String alone(String name) {
    if (name.equals(TOPICS)) {
      return file(name);
    }
    ObjectNode schema = tree(name);
    Set<String> others = new TreeSet<>();
    collect(schema, others);
    others.remove(name);
    if (others.isEmpty()) {
      return file(name);
    }
    ObjectNode defs = schema.withObjectProperty("$defs");
    others.forEach(other -> defs.set(other + ".json", tree(other)));
    try {
      return MAPPER.writeValueAsString(schema) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the schema " + name + " cannot be written", e);
    }
  }

  private static ObjectNode tree(String name) {
    try {
      return (ObjectNode) MAPPER.readTree(file(name));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the jar's schema " + name + " is no JSON", e);
    }
  }

  /** Collects the other files that a schema needs, directly or indirectly. */
  private static void collect(JsonNode node, Set<String> names) {
    String reference = node.path("$ref").asText();
    int end = reference.indexOf(".json");
    if (end > 0 && names.add(reference.substring(0, end))) {
      collect(tree(reference.substring(0, end)), names);
    }
    node.forEach(child -> collect(child, names));
  }
}
