package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;

/** One event of a scan; also the answer to a command. */
public final class EventDocument {
  private EventDocument() {}

  public static byte[] of(ScanEvent event, double unixTimeS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          json.writeNumberField("time_unix_s", unixTimeS);
          fields(json, event);
          json.writeEndObject();
        });
  }

  static void write(JsonGenerator json, ScanEvent event) throws IOException {
    json.writeStartObject();
    fields(json, event);
    json.writeEndObject();
  }

  private static void fields(JsonGenerator json, ScanEvent event) throws IOException {
    if (event instanceof ScanEvent.AlarmChanged e) {
      json.writeStringField("event", "alarm");
      json.writeStringField("alarm", e.alarm().id());
      json.writeStringField("priority", e.alarm().priority().key());
      json.writeStringField("from", e.from().term());
      json.writeStringField("to", e.to().term());
    } else if (event instanceof ScanEvent.ModeChanged e) {
      json.writeStringField("event", "mode");
      json.writeStringField("from", e.from().key());
      json.writeStringField("to", e.to().key());
    } else if (event instanceof ScanEvent.Accepted e) {
      json.writeStringField("event", "command");
      answer(json, e.request(), "accepted", Optional.empty());
    } else if (event instanceof ScanEvent.Refused e) {
      json.writeStringField("event", "command");
      answer(json, e.request(), "refused", Optional.of(e.reason()));
    } else if (event instanceof ScanEvent.Tripped e) {
      json.writeStringField("event", "interlock");
      json.writeStringField("cause", e.cause().id());
      json.writeStringField("title", e.cause().title());
      json.writeBooleanField("active", e.began());
    } else if (event instanceof ScanEvent.Interrupted e) {
      json.writeStringField("event", "interrupted");
      Json.number(json, "elapsed_s", e.elapsedS());
    }
  }

  private static void answer(
      JsonGenerator json, Command.Request request, String result, Optional<String> reason)
      throws IOException {
    json.writeStringField("type", request.type());
    if (request.requestId().isPresent()) {
      json.writeStringField("request_id", request.requestId().get());
    }
    json.writeStringField("origin", request.origin());
    json.writeStringField("result", result);
    if (reason.isPresent()) {
      json.writeStringField("reason", reason.get());
    }
  }
}
