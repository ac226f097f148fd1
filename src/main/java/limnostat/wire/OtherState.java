package limnostat.wire;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import limnostat.scan.ScanState;

/**
 * What can be taken up of a state that another version saved, or that is damaged in a place: part
 * by part, each read as strictly as a whole one. What an older version did not know begins as on
 * the first day; a part that still cannot be read is lost as a whole.
 *
 * @param state it, with a fresh part for each that is lost
 * @param lost names of those parts, in order
 */
public record OtherState(ScanState state, List<String> lost) {
  private static final JsonMapper MAPPER = new JsonMapper();

  /** Never filled in: a field that was renamed would count as nothing given. */
  private static final String ACCOUNT = "account";

  /** What was given, what is locked out and what stands as an alarm: without them no feeding. */
  private static final Set<String> NEEDED_TO_FEED = Set.of("chlorine", "acid", "safety", "alarms");

  /**
   * @param fresh the state before the first scan
   * @throws IOException the document is no object of JSON
   */
  public static OtherState read(byte[] document, ScanState fresh) throws IOException {
    if (!(MAPPER.readTree(document) instanceof ObjectNode old)) {
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
      }
    }
    return new OtherState(SavedState.read(MAPPER.writeValueAsBytes(whole)), List.copyOf(lost));
  }

  /** Whether all is there that feeding has to go by. */
  public boolean mayFeed() {
    return lost.stream().noneMatch(NEEDED_TO_FEED::contains);
  }

  /** The old one with the fields of the fresh one; a map, which is empty when fresh, as it is. */
  private static JsonNode merged(JsonNode fresh, JsonNode old) {
    if (!(fresh instanceof ObjectNode known && old instanceof ObjectNode) || known.isEmpty()) {
      return old;
    }
    ObjectNode merged = known.deepCopy();
    for (String name : names(known)) {
      if (old.has(name)) {
        JsonNode was = old.get(name);
        merged.set(name, name.equals(ACCOUNT) ? was : merged(known.get(name), was));
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
      return false; // told by its name in what is lost
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
