package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;

/**
 * The topics' document in itself; what the program sends and takes is held against it by
 * TopicsSentTest. Its shape was checked with the schema that the AsyncAPI initiative publishes for
 * 3.0.0.
 */
class TopicsTest {
  private static final JsonNode DOCUMENT =
      Sent.json(Schemas.file(Schemas.TOPICS).getBytes(StandardCharsets.UTF_8));

  @Test
  void everyReferenceLeadsSomewhere() {
    List<String> references = new ArrayList<>();
    references(DOCUMENT, references);
    assertTrue(references.size() > 30, references.toString());
    for (String reference : references) {
      if (reference.startsWith("#")) {
        assertTrue(DOCUMENT.at(reference.substring(1)).isObject(), reference);
      } else {
        assertTrue(Schemas.NAMES.contains(reference.replace(".json", "")), reference);
      }
    }
  }

  /** One channel, one message, one operation a document, of the same name. */
  @Test
  void everySchemaHasItsTopic() {
    Map<String, String> payloads = new TreeMap<>();
    DOCUMENT
        .path("channels")
        .properties()
        .forEach(
            channel -> {
              String name = channel.getKey();
              String message = channel.getValue().at("/messages/" + name + "/$ref").textValue();
              payloads.put(
                  name, DOCUMENT.at(message.substring(1)).at("/payload/schema/$ref").textValue());
            });
    Map<String, String> wanted = new TreeMap<>();
    for (String name : Schemas.NAMES) {
      if (!name.equals(Schemas.TOPICS) && !name.equals(Schemas.VOCABULARY)) {
        wanted.put(name, name + ".json");
      }
    }
    assertEquals(wanted, payloads);
    List<String> operated =
        StreamSupport.stream(DOCUMENT.path("operations").spliterator(), false)
            .map(o -> o.at("/channel/$ref").textValue().replace("#/channels/", ""))
            .sorted()
            .toList();
    assertEquals(List.copyOf(wanted.keySet()), operated);
  }

  @Test
  void aCommandIsReceivedAndAnsweredOnResult() {
    JsonNode receive = DOCUMENT.at("/operations/receiveCommand");
    assertEquals("receive", receive.path("action").textValue());
    assertEquals("#/channels/result", receive.at("/reply/channel/$ref").textValue());
  }

  private static void references(JsonNode node, List<String> references) {
    if (node.path("$ref").isTextual()) {
      references.add(node.path("$ref").textValue());
    }
    node.forEach(child -> references(child, references));
  }
}
