package limnostat.wire;

import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.Optional;
import limnostat.scan.ScanState;

/**
 * The scan's state as the ledger stores it. Doubles are written so that they are read back bit for
 * bit. A document of another shape is refused, never partly read.
 */
public final class SavedState {
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .defaultSetterInfo(JsonSetter.Value.forContentNulls(Nulls.FAIL))
          .build();

  private SavedState() {}

  public static byte[] write(ScanState state) {
    try {
      return MAPPER.writeValueAsBytes(state);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the state cannot be written as JSON", e);
    }
  }

  /**
   * @throws IOException the document is not a state of this version
   */
  public static ScanState read(byte[] document) throws IOException {
    refuseNaN(document);
    return Optional.ofNullable(MAPPER.readValue(document, ScanState.class))
        .orElseThrow(() -> new IOException("the state is null"));
  }

  /** NaN would pass every comparison with a limit, and no valid state contains one. */
  private static void refuseNaN(byte[] document) throws IOException {
    try (JsonParser json = MAPPER.createParser(document)) {
      while (json.nextToken() != null) {
        if (json.hasToken(JsonToken.VALUE_STRING) && json.getText().equals("NaN")) {
          throw new IOException(
              "the state has a field that is not a number: " + json.currentName());
        }
      }
    }
  }
}
