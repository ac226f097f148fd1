package limnostat.wire;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * Identifies a command that is not read, from its top-level fields. This may be a retained command,
 * the beginning of one that is too long, or one that stops being valid JSON at some point.
 *
 * @param type empty if there is none
 */
record Envelope(String type, Optional<String> requestId) {

  static Envelope of(byte[] beginning) {
    String text = new String(beginning, StandardCharsets.UTF_8);
    Envelope envelope = new Envelope("", Optional.empty());
    try (JsonParser in = Json.MAPPER.createParser(text)) {
      boolean object = in.nextToken() == JsonToken.START_OBJECT;
      while (object && in.nextToken() == JsonToken.FIELD_NAME) {
        String name = in.currentName();
        JsonToken value = in.nextToken();
        if (value == JsonToken.VALUE_STRING
            || (value == JsonToken.VALUE_NUMBER_INT && ended(in, text))) {
          envelope = envelope.with(name, Text.shortened(Text.mended(in.getText())), value);
        }
        in.skipChildren();
      }
    } catch (IOException e) {
      return envelope; // the fields before the fault; the refusal gives the fault itself
    }
    return envelope;
  }

  /** Whether the number is complete. A number at the very end may have been cut off. */
  private static boolean ended(JsonParser in, String text) throws IOException {
    return in.currentTokenLocation().getCharOffset() + in.getTextLength() < text.length();
  }

  private Envelope with(String name, String value, JsonToken kind) {
    if (name.equals("request_id")) {
      return new Envelope(type, Optional.of(value));
    }
    return name.equals("type") && kind == JsonToken.VALUE_STRING
        ? new Envelope(value, requestId)
        : this;
  }
}
