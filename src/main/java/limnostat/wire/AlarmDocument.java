package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.scan.ScanState;

/** One alarm, as its retained topic carries it. */
public final class AlarmDocument {
  private AlarmDocument() {}

  /** Whether the alarm is in any state but normal; one whose delay still runs is not. */
  public static boolean raised(Alarms.Entry entry) {
    return entry.state() != AlarmState.NORMAL;
  }

  /**
   * An alarm as people see it.
   *
   * @param detail what it has to say in numbers, where it has
   * @param firstOut whether it was the first of those that hold or limit an output
   * @param shelvedUntilUnixS when its shelf ends, Unix s, by the wall clock; empty: not shelved, or
   *     the clock was not trusted when it was
   */
  public record Shown(
      AlarmState state,
      Optional<String> detail,
      boolean firstOut,
      OptionalDouble shelvedUntilUnixS) {
    public Shown(AlarmState state, Optional<String> detail) {
      this(state, detail, false, OptionalDouble.empty());
    }

    /** As it is in a state of the scan. */
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
