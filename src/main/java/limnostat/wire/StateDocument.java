package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Map;
import java.util.OptionalDouble;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.alarm.Alarms;
import limnostat.control.Capacity;
import limnostat.control.Superchlorination;
import limnostat.measure.Measurements;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;

/** The state document: what the state topic carries and {@code bench} answers, field by field. */
public final class StateDocument {
  private StateDocument() {}

  public static byte[] of(ScanOutcome outcome, double unixTimeS) {
    return Json.document(json -> write(json, outcome, unixTimeS));
  }

  /** The answer to one input line of {@code bench}, with its line feed. */
  public static byte[] benchLine(ScanOutcome outcome, double unixTimeS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          Json.time(json, "t", unixTimeS);
          json.writeFieldName("out");
          writeOutputs(json, outcome.outputs());
          json.writeFieldName("state");
          write(json, outcome, unixTimeS);
          json.writeArrayFieldStart("alarms");
          for (Map.Entry<Cause, Alarms.Entry> alarm : outcome.state().alarms().entrySet()) {
            if (AlarmDocument.raised(alarm.getValue())) {
              AlarmDocument.write(
                  json,
                  alarm.getKey(),
                  AlarmDocument.Shown.of(
                      alarm.getKey(), outcome.state(), outcome.details().of(alarm.getKey())));
            }
          }
          json.writeEndArray();
          json.writeArrayFieldStart("events");
          for (ScanEvent event : outcome.events()) {
            EventDocument.write(json, event);
          }
          json.writeEndArray();
          json.writeEndObject();
          json.writeRaw('\n');
        });
  }

  private static void write(JsonGenerator json, ScanOutcome outcome, double unixTimeS)
      throws IOException {
    ScanState state = outcome.state();
    Measurements measured = outcome.measured();
    json.writeStartObject();
    Json.time(json, "time_unix_s", unixTimeS);
    json.writeStringField("mode", state.control().mode().key());
    json.writeStringField("control_level", state.control().level().settled().key());
    Json.number(json, "duty", outcome.demand().chlorineDuty());
    Json.number(json, "target_free_chlorine_mg_l", state.control().targetMgL());
    Json.number(json, "ph", measured.ph().shown());
    Json.number(json, "orp_mv", measured.orpMv().shown());
    Json.number(json, "water_c", measured.waterC().shown());
    json.writeObjectFieldStart("status");
    json.writeStringField("ph", measured.ph().status().term());
    json.writeStringField("orp_mv", measured.orpMv().status().term());
    json.writeStringField("water_c", measured.waterC().status().term());
    json.writeEndObject();
    json.writeBooleanField("flow", measured.flow());
    Json.number(json, "free_chlorine_mg_l", outcome.estimate().freeChlorineMgL());
    Json.number(json, "free_chlorine_sd_mg_l", outcome.estimate().freeChlorineSdMgL());
    Json.number(json, "demand_mg_l_day", outcome.estimate().demandMgLDay());
    Json.number(json, "demand_sd_mg_l_day", outcome.estimate().demandSdMgLDay());
    json.writeStringField("test_due", outcome.estimate().testDue().key());
    SlowAccountFields.write(json, state.estimate());
    Json.number(json, "function_check_left_s", state.safety().watched().functionCheckS());
    Json.number(json, "manual_left_s", state.asked().manual().leftS());
    Json.number(json, "solar_w_m2", measured.outside().solarWM2());
    json.writeFieldName("outputs");
    writeOutputs(json, outcome.outputs());
    json.writeArrayFieldStart("inhibits");
    for (Cause cause : outcome.permission().active()) {
      writeHeld(json, cause);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("limits");
    for (Cause cause : outcome.permission().active()) {
      if (cause.on(Output.CHLORINE) == Effect.LIMIT) {
        json.writeString(cause.id());
      }
    }
    json.writeEndArray();
    json.writeBooleanField("alarm_flood", state.annunciator().flood().on());
    writeDoses(json, state);
    AdditionFields.write(json, state.asked().additions());
    DayDocument.write(json, state.totals());
    writeSuperchlorination(json, state.control().superchlorination());
    writeDiagnostics(json, outcome);
    json.writeEndObject();
  }

  /** For engineers: how the estimate is formed and how the control law uses it. */
  private static void writeDiagnostics(JsonGenerator json, ScanOutcome outcome) throws IOException {
    Capacity capacity = outcome.state().control().capacity();
    json.writeObjectFieldStart("diagnostics");
    Json.number(json, "orp_setpoint_mv", outcome.estimate().orpSetpointMv());
    Json.number(json, "electrode_offset_mv", outcome.estimate().electrodeOffsetMv());
    Json.number(json, "innovation_mv", outcome.estimate().consistency().innovationMv());
    Json.number(json, "innovation_sd_mv", outcome.estimate().consistency().innovationSdMv());
    Json.number(json, "innovation_misfit", outcome.estimate().consistency().misfit());
    Json.number(json, "output_gain", outcome.estimate().outlook().gain());
    Json.number(json, "chlorine_needed_g_day", known(capacity, capacity.neededGDay()));
    Json.number(json, "chlorine_available_g_day", known(capacity, capacity.bringsGDay()));
    Json.number(json, "sun_shape", outcome.state().sun().shape());
    Json.number(json, "ultraviolet_fraction", outcome.state().sun().fraction());
    if (outcome.measured().flowMissing().isPresent()) {
      json.writeStringField("flow_missing", outcome.measured().flowMissing().get());
    }
    json.writeEndObject();
  }

  private static OptionalDouble known(Capacity capacity, double gDay) {
    return capacity.known() ? OptionalDouble.of(gDay) : OptionalDouble.empty();
  }

  private static void writeOutputs(JsonGenerator json, Outputs outputs) throws IOException {
    json.writeStartObject();
    Json.number(json, "chlorine", outputs.chlorine());
    Json.number(json, "acid", outputs.acid());
    json.writeBooleanField("pump_request", outputs.pumpRequest());
    json.writeEndObject();
  }

  private static void writeHeld(JsonGenerator json, Cause cause) throws IOException {
    boolean chlorine = cause.on(Output.CHLORINE) == Effect.INHIBIT;
    boolean acid = cause.on(Output.ACID) == Effect.INHIBIT;
    if (chlorine || acid) {
      json.writeStartObject();
      json.writeStringField("cause", cause.id());
      json.writeArrayFieldStart("outputs");
      if (chlorine) {
        json.writeString(Output.CHLORINE.key());
      }
      if (acid) {
        json.writeString(Output.ACID.key());
      }
      json.writeEndArray();
      json.writeEndObject();
    }
  }

  private static void writeDoses(JsonGenerator json, ScanState state) throws IOException {
    Json.number(json, "chlorine_hour_g", state.chlorine().account().lastHour());
    Json.number(json, "chlorine_day_g", state.chlorine().account().lastDay());
    Json.number(json, "chlorine_total_g", state.chlorine().account().given());
    Json.number(json, "acid_hour_ml", state.acid().account().lastHour());
    Json.number(json, "acid_day_ml", state.acid().account().lastDay());
    Json.number(json, "acid_total_ml", state.acid().account().given());
  }

  private static void writeSuperchlorination(JsonGenerator json, Superchlorination raise)
      throws IOException {
    Json.number(json, "superchlorination_mg_l", raise.levelMgL());
    Json.number(json, "superchlorination_left_s", raise.leftS());
    json.writeBooleanField("reentry_hold", raise.reentry());
  }
}
