package limnostat.wire;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.scan.ScanState;

/**
 * What can be restored from a state that another version saved or that is partly damaged. It is
 * restored part by part, and each part is read as strictly as a complete state. A field that an
 * older version did not know starts with its initial value. A part that still cannot be read is
 * lost as a whole.
 *
 * @param state the restored state, with a fresh part in place of each lost one
 * @param lost names of the lost parts, in order
 */
public record StateMigration(ScanState state, List<String> lost) {
  private static final JsonMapper MAPPER = new JsonMapper();

  /** Missing fields are never filled in here: a renamed field would count as nothing fed. */
  private static final String ACCOUNT = "account";

  /** The amounts fed, the interlocks and the active alarms. Without them feeding is inhibited. */
  private static final Set<String> NEEDED_TO_FEED = Set.of("chlorine", "acid", "safety", "alarms");

  /** What can be kept from a lost part on its own: the tested levels of stabiliser and salt. */
  private static final Map<String, String> KEPT_OF_LOST = Map.of("estimate", "slow");

  /** Values of older versions that no longer exist, and what replaces them. */
  private static final Map<String, String> REPLACED = Map.of("ORP_ALONE", "NONE", "FALLEN", "NONE");

  /** Field names of older versions, and their present names. */
  private static final Map<String, String> RENAMED =
      Map.of("ladder", "level", "rung", "settled", "toldSdMgL", "enteredSdMgL");

  /** Causes that no longer exist. They inhibit nothing and raise no alarm. */
  private static final Set<String> GONE = Set.of("FALLBACK_EXPIRED");

  /**
   * @param fresh the state before the first scan
   * @throws IOException the document is not a JSON object
   */
  public static StateMigration read(byte[] document, ScanState fresh) throws IOException {
    if (!(worded(MAPPER.readTree(document)) instanceof ObjectNode old)) {
      throw new IOException("the state is no object");
    }
    ObjectNode whole = (ObjectNode) MAPPER.readTree(SavedState.write(fresh));
    List<String> lost = new ArrayList<>();
    for (String part : names(whole)) {
      ObjectNode with = whole.deepCopy();
      if (old.has(part)) {
        with.set(part, merged(whole.get(part), old.get(part)));
      }
      if (old.has(part) && reads(with)) {
        whole = with;
      } else {
        lost.add(part);
        whole = withKept(part, old.path(part), whole);
      }
    }
    return new StateMigration(SavedState.read(MAPPER.writeValueAsBytes(whole)), List.copyOf(lost));
  }

  /** Whether every part that feeding depends on is there. */
  public boolean mayFeed() {
    return lost.stream().noneMatch(NEEDED_TO_FEED::contains);
  }

  private static ObjectNode withKept(String part, JsonNode old, ObjectNode whole)
      throws IOException {
    String name = KEPT_OF_LOST.getOrDefault(part, "");
    if (!old.has(name)) {
      return whole;
    }
    ObjectNode with = whole.deepCopy();
    JsonNode fresh = whole.get(part).get(name);
    ((ObjectNode) with.get(part)).set(name, merged(fresh, old.get(name)));
    return reads(with) ? with : whole;
  }

  /** The same document in the terms of this version. */
  private static JsonNode worded(JsonNode node) {
    if (node instanceof ObjectNode object) {
      ObjectNode next = MAPPER.createObjectNode();
      for (String name : names(object)) {
        if (!GONE.contains(name)) {
          next.set(RENAMED.getOrDefault(name, name), worded(object.get(name)));
        }
      }
      return next;
    }
    if (node instanceof ArrayNode array) {
      ArrayNode next = MAPPER.createArrayNode();
      for (JsonNode element : array) {
        if (!GONE.contains(element.asText())) {
          next.add(worded(element));
        }
      }
      return next;
    }
    String replaced = node.isTextual() ? REPLACED.get(node.textValue()) : null;
    return replaced == null ? node : TextNode.valueOf(replaced);
  }

  /**
   * Whether the old value is a number or a flag where there is a record now. Such a value meant
   * something else.
   */
  private static boolean another(JsonNode fresh, JsonNode old) {
    return fresh.isObject() && (old.isNumber() || old.isBoolean());
  }

  /**
   * The old object, limited to the fields of the fresh one and completed from it. A map, which is
   * empty when fresh, is taken as it is.
   */
  private static JsonNode merged(JsonNode fresh, JsonNode old) {
    if (!(fresh instanceof ObjectNode known && old instanceof ObjectNode) || known.isEmpty()) {
      return old;
    }
    ObjectNode merged = known.deepCopy();
    for (String name : names(known)) {
      if (old.has(name)) {
        JsonNode was = old.get(name);
        if (!another(known.get(name), was)) {
          merged.set(name, name.equals(ACCOUNT) ? was : merged(known.get(name), was));
        } else if (name.equals(ACCOUNT)) {
          merged.remove(name);
        }
      } else if (name.equals(ACCOUNT)) {
        merged.remove(name);
      }
    }
    return merged;
  }

  private static boolean reads(ObjectNode document) throws IOException {
    byte[] bytes = MAPPER.writeValueAsBytes(document);
    try {
      SavedState.read(bytes);
      return true;
    } catch (IOException e) {
      return false; // its name is reported in the list of lost parts
    }
  }

  private static List<String> names(JsonNode object) {
    List<String> names = new ArrayList<>();
    for (Iterator<String> i = object.fieldNames(); i.hasNext(); ) {
      names.add(i.next());
    }
    return names;
  }
}
