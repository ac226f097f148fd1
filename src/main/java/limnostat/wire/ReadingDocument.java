package limnostat.wire;

import limnostat.scan.ScanOutcome;

/** What was measured and estimated while the broker was away, for the topic {@code reading}. */
public final class ReadingDocument {
  private ReadingDocument() {}

  /**
   * Fields as in the state document.
   *
   * @param id distinguishes a repeat from a second reading
   * @param clockTrusted whether the time can be relied on
   */
  public static byte[] of(ScanOutcome outcome, double unixTimeS, boolean clockTrusted, String id) {
    return Json.document(
        json -> {
          json.writeStartObject();
          json.writeStringField("id", id);
          Json.time(json, "time_unix_s", unixTimeS);
          json.writeBooleanField("clock_trusted", clockTrusted);
          Json.number(json, "ph", outcome.measured().ph().shown());
          Json.number(json, "orp_mv", outcome.measured().orpMv().shown());
          Json.number(json, "water_c", outcome.measured().waterC().shown());
          Json.number(json, "free_chlorine_mg_l", outcome.estimate().freeChlorineMgL());
          Json.number(json, "free_chlorine_sd_mg_l", outcome.estimate().freeChlorineSdMgL());
          Json.number(json, "demand_mg_l_day", outcome.estimate().demandMgLDay());
          Json.number(json, "duty", outcome.demand().chlorineDuty());
          Json.number(json, "chlorine_total_g", outcome.state().chlorine().account().given());
          Json.number(json, "acid_total_ml", outcome.state().acid().account().given());
          json.writeEndObject();
        });
  }
}
