package limnostat.wire;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.OptionalDouble;

/** How this program reads and writes JSON: strict, bounded, duplicates refused. */
final class Json {
  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
          .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(16)
                  .maxStringLength(4096)
                  .maxNumberLength(40)
                  .build())
          .build();

  static final JsonMapper MAPPER =
      JsonMapper.builder(FACTORY).enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS).build();

  private Json() {}

  /** What writes one document. */
  interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  /** One document as UTF-8; memory is the only thing that can fail. */
  static byte[] document(Body body) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1024);
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      body.write(json);
    } catch (IOException e) {
      throw new UncheckedIOException("writing JSON to memory", e);
    }
    return out.toByteArray();
  }

  /** A time in Unix s, in full digits and without an exponent, as people and parsers like it. */
  static void time(JsonGenerator json, String field, double unixTimeS) throws IOException {
    json.writeFieldName(field);
    if (unixTimeS == Math.rint(unixTimeS)) {
      json.writeNumber((long) unixTimeS);
    } else {
      json.writeNumber(BigDecimal.valueOf(unixTimeS).toPlainString());
    }
  }

  /** A field rounded to four decimals, finer than anything measured here. */
  static void number(JsonGenerator json, String field, double value) throws IOException {
    json.writeNumberField(field, Math.rint(value * 1e4) / 1e4);
  }

  /** The same, or null. */
  static void number(JsonGenerator json, String field, OptionalDouble value) throws IOException {
    if (value.isPresent()) {
      number(json, field, value.getAsDouble());
    } else {
      json.writeNullField(field);
    }
  }
}
