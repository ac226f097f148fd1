package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
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
   * @param sinceUnixS wall clock of the last change, Unix s
   */
  public static byte[] of(Cause cause, AlarmState state, double sinceUnixS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          fields(json, cause, state);
          Json.time(json, "since_unix_s", sinceUnixS);
          json.writeEndObject();
        });
  }

  static void write(JsonGenerator json, Cause cause, AlarmState state) throws IOException {
    json.writeStartObject();
    fields(json, cause, state);
    json.writeEndObject();
  }

  private static void fields(JsonGenerator json, Cause cause, AlarmState state) throws IOException {
    json.writeStringField("id", cause.id());
    json.writeStringField("priority", cause.priority().key());
    json.writeStringField("state", state.term());
    json.writeStringField("title", cause.title());
    json.writeStringField("advice", cause.advice());
  }
}
