package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.scan.ScanState;

/** One alarm, as published on its retained topic. */
public final class AlarmDocument {
  private AlarmDocument() {}

  /**
   * Whether the alarm is in any state other than normal. An alarm whose delay is still running is
   * not raised.
   */
  public static boolean raised(Alarms.Entry entry) {
    return entry.state() != AlarmState.NORMAL;
  }

  /**
   * An alarm as people see it.
   *
   * @param detail the numbers behind the alarm, where there are any
   * @param firstOut whether it was the first of those that inhibit or limit an output
   * @param shelvedUntilUnixS when shelving ends, Unix s, by the wall clock; empty if it is not
   *     shelved, or if the clock was not trusted when it was shelved
   */
  public record Shown(
      AlarmState state,
      Optional<String> detail,
      boolean firstOut,
      OptionalDouble shelvedUntilUnixS) {
    public Shown(AlarmState state, Optional<String> detail) {
      this(state, detail, false, OptionalDouble.empty());
    }

    /** The alarm as it is in the given state of the scan. */
    public static Shown of(Cause cause, ScanState state, Optional<String> detail) {
      Alarms.Entry entry = state.alarms().get(cause);
      if (entry == null) {
        return new Shown(AlarmState.NORMAL, detail);
      }
      double untilUnixS = entry.shelf().untilUnixS();
      return new Shown(
          entry.state(),
          detail,
          raised(entry) && state.annunciator().firstOut().marks(cause),
          entry.shelf().running() && Double.isFinite(untilUnixS)
              ? OptionalDouble.of(untilUnixS)
              : OptionalDouble.empty());
    }
  }

  /**
   * @param sinceUnixS wall clock of the last change, Unix s
   */
  public static byte[] of(Cause cause, Shown shown, double sinceUnixS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          fields(json, cause, shown);
          Json.time(json, "since_unix_s", sinceUnixS);
          json.writeEndObject();
        });
  }

  static void write(JsonGenerator json, Cause cause, Shown shown) throws IOException {
    json.writeStartObject();
    fields(json, cause, shown);
    json.writeEndObject();
  }

  private static void fields(JsonGenerator json, Cause cause, Shown shown) throws IOException {
    json.writeStringField("id", cause.id());
    json.writeStringField("priority", cause.priority().key());
    json.writeStringField("state", shown.state().term());
    json.writeBooleanField("acknowledged", shown.state().acknowledged());
    json.writeBooleanField("first_out", shown.firstOut());
    json.writeStringField("title", cause.title());
    json.writeStringField("advice", cause.advice());
    if (shown.detail().isPresent()) {
      json.writeStringField("detail", shown.detail().get());
    }
    if (shown.shelvedUntilUnixS().isPresent()) {
      Json.time(json, "shelved_until_unix_s", shown.shelvedUntilUnixS().getAsDouble());
    }
  }
}
