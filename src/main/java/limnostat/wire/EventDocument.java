package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;

/** One event of a scan; also the answer to a command. */
public final class EventDocument {
  /** All values that {@link #kind} can return. */
  static final List<String> KINDS =
      List.of(
          "alarm",
          "alarm_flood",
          "setpoint",
          "day",
          "mode",
          "control_level",
          "interlock",
          "interrupted",
          "addition_entered",
          "addition_undone",
          "addition_suspected",
          "command");

  private EventDocument() {}

  /** For the event topic. The id distinguishes a repeat from a second event. */
  public static byte[] numbered(ScanEvent event, double unixTimeS, String id) {
    return Json.document(
        json -> {
          json.writeStartObject();
          json.writeStringField("id", id);
          Json.time(json, "time_unix_s", unixTimeS);
          fields(json, event);
          json.writeEndObject();
        });
  }

  /** For the journal, which adds its own time and number. */
  public static String text(ScanEvent event) {
    return new String(Json.document(json -> write(json, event)), StandardCharsets.UTF_8);
  }

  /** The kind of event: the value of its field {@code event}. */
  public static String kind(ScanEvent event) {
    if (event instanceof ScanEvent.AlarmChanged) {
      return "alarm";
    }
    if (event instanceof ScanEvent.AlarmFlood) {
      return "alarm_flood";
    }
    if (event instanceof ScanEvent.SetpointChanged) {
      return "setpoint";
    }
    if (event instanceof ScanEvent.DayEnded) {
      return "day";
    }
    if (event instanceof ScanEvent.ModeChanged) {
      return "mode";
    }
    if (event instanceof ScanEvent.ControlLevelChanged) {
      return "control_level";
    }
    if (event instanceof ScanEvent.Tripped) {
      return "interlock";
    }
    if (event instanceof ScanEvent.AdditionEntered) {
      return "addition_entered";
    }
    if (event instanceof ScanEvent.AdditionUndone) {
      return "addition_undone";
    }
    if (event instanceof ScanEvent.AdditionSuspected) {
      return "addition_suspected";
    }
    return event instanceof ScanEvent.Interrupted ? "interrupted" : "command";
  }

  static void write(JsonGenerator json, ScanEvent event) throws IOException {
    json.writeStartObject();
    fields(json, event);
    json.writeEndObject();
  }

  private static void fields(JsonGenerator json, ScanEvent event) throws IOException {
    json.writeStringField("event", kind(event));
    if (event instanceof ScanEvent.AlarmChanged e) {
      json.writeStringField("alarm", e.alarm().id());
      json.writeStringField("priority", e.alarm().priority().key());
      json.writeStringField("from", e.from().term());
      json.writeStringField("to", e.to().term());
      if (e.firstOut()) {
        json.writeBooleanField("first_out", true);
      }
      if (e.heldBack()) {
        json.writeBooleanField("held_back", true);
      }
      if (e.detail().isPresent()) {
        json.writeStringField("detail", e.detail().get());
      }
    } else if (event instanceof ScanEvent.AlarmFlood e) {
      json.writeBooleanField("active", e.began());
    } else if (event instanceof ScanEvent.SetpointChanged e) {
      json.writeStringField("setpoint", e.name());
      Json.number(json, "from", e.from());
      Json.number(json, "to", e.to());
      json.writeStringField("origin", e.origin());
    } else if (event instanceof ScanEvent.DayEnded e) {
      DayDocument.fields(json, e.totals());
    } else if (event instanceof ScanEvent.ModeChanged e) {
      json.writeStringField("from", e.from().key());
      json.writeStringField("to", e.to().key());
    } else if (event instanceof ScanEvent.ControlLevelChanged e) {
      json.writeStringField("from", e.from().key());
      json.writeStringField("to", e.to().key());
    } else if (event instanceof ScanEvent.Accepted e) {
      answer(json, e.request(), "accepted", Optional.empty());
      if (e.remark().isPresent()) {
        json.writeStringField("remark", e.remark().get());
      }
      if (e.listed().isPresent()) {
        AdditionFields.list(json, e.listed().get());
      }
    } else if (event instanceof ScanEvent.Refused e) {
      answer(json, e.request(), "refused", Optional.of(e.reason()));
    } else if (event instanceof ScanEvent.AnsweredAgain e) {
      boolean accepted = e.first().accepted();
      Optional<String> text = Optional.of(e.first().text()).filter(t -> !t.isEmpty());
      answer(
          json, e.request(), accepted ? "accepted" : "refused", accepted ? Optional.empty() : text);
      if (accepted && text.isPresent()) {
        json.writeStringField("remark", text.get());
      }
      json.writeBooleanField("repeated", true);
    } else if (event instanceof ScanEvent.Tripped e) {
      json.writeStringField("cause", e.cause().id());
      json.writeStringField("title", e.cause().title());
      json.writeBooleanField("active", e.began());
    } else if (event instanceof ScanEvent.AdditionEntered e) {
      AdditionFields.fields(json, e.addition(), e.addition().ageS());
    } else if (event instanceof ScanEvent.AdditionUndone e) {
      AdditionFields.fields(json, e.addition(), e.addition().ageS());
    } else if (event instanceof ScanEvent.AdditionSuspected e) {
      Json.number(json, "read_mg_l", e.found().readMgL());
      Json.number(json, "expected_mg_l", e.found().expectedMgL());
      Json.number(json, "sd_mg_l", e.found().sdMgL());
      json.writeStringField("text", e.text());
    } else if (event instanceof ScanEvent.Interrupted e) {
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
