package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;

/** One alarm, as its retained topic carries it. */
public final class AlarmDocument {
  private AlarmDocument() {}

  /** Whether the alarm is in any state but normal; one whose delay still runs is not. */
  public static boolean raised(Alarms.Entry entry) {
    return entry.state() != AlarmState.NORMAL;
  }

  /**
   * @param detail what it has to say in numbers, where it has
   * @param sinceUnixS wall clock of the last change, Unix s
   */
  public static byte[] of(
      Cause cause, AlarmState state, Optional<String> detail, double sinceUnixS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          fields(json, cause, state, detail);
          Json.time(json, "since_unix_s", sinceUnixS);
          json.writeEndObject();
        });
  }

  static void write(JsonGenerator json, Cause cause, AlarmState state, Optional<String> detail)
      throws IOException {
    json.writeStartObject();
    fields(json, cause, state, detail);
    json.writeEndObject();
  }

  private static void fields(
      JsonGenerator json, Cause cause, AlarmState state, Optional<String> detail)
      throws IOException {
    json.writeStringField("id", cause.id());
    json.writeStringField("priority", cause.priority().key());
    json.writeStringField("state", state.term());
    json.writeStringField("title", cause.title());
    json.writeStringField("advice", cause.advice());
    if (detail.isPresent()) {
      json.writeStringField("detail", detail.get());
    }
  }
}
