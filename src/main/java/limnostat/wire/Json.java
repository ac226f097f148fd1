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
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
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

  /** Writes one document. */
  interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  /** One document as UTF-8. It is written in memory, so it cannot fail on I/O. */
  static byte[] document(Body body) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1024);
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      body.write(json);
    } catch (IOException e) {
      throw new UncheckedIOException("writing JSON to memory", e);
    }
    return out.toByteArray();
  }

  /** A time, Unix s, in plain digits and without rounding. */
  static void time(JsonGenerator json, String field, double unixS) throws IOException {
    if (unixS == Math.rint(unixS) && Math.abs(unixS) < 1e15) {
      json.writeNumberField(field, (long) unixS);
    } else {
      json.writeNumberField(field, BigDecimal.valueOf(unixS));
    }
  }

  /** A field rounded to four decimals, which is finer than anything measured here. */
  static void number(JsonGenerator json, String field, double value) throws IOException {
    double rounded = Math.rint(value * 1e4) / 1e4;
    // A very large number must not overflow to infinity when it is rounded. JSON has no infinity.
    json.writeNumberField(field, Double.isFinite(rounded) ? rounded : value);
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
