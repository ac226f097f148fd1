package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.LocalDate;
import limnostat.account.DoseTotals;

/** What was fed in a day and in the season, for the owner. */
public final class DayDocument {
  private DayDocument() {}

  /** A completed day, for the retained topic {@code day}. */
  public static byte[] of(DoseTotals totals, double unixTimeS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          Json.time(json, "time_unix_s", unixTimeS);
          fields(json, totals);
          json.writeEndObject();
        });
  }

  static void fields(JsonGenerator json, DoseTotals totals) throws IOException {
    json.writeStringField("date", LocalDate.ofEpochDay(totals.epochDay()).toString());
    json.writeBooleanField("clock_trusted", totals.dated());
    amounts(json, totals.day());
    Json.number(json, "hours", totals.dayS() / 3600);
    json.writeObjectFieldStart("season");
    season(json, totals);
    json.writeEndObject();
  }

  /** Writes the fields of the state document: the current day and the season. */
  static void write(JsonGenerator json, DoseTotals totals) throws IOException {
    if (!totals.begun()) {
      return; // before the very first scan
    }
    json.writeObjectFieldStart("today");
    json.writeStringField("date", LocalDate.ofEpochDay(totals.epochDay()).toString());
    json.writeBooleanField("clock_trusted", totals.dated());
    amounts(json, totals.day());
    json.writeEndObject();
    json.writeObjectFieldStart("season");
    season(json, totals);
    json.writeEndObject();
  }

  private static void season(JsonGenerator json, DoseTotals totals) throws IOException {
    json.writeStringField("from", LocalDate.ofEpochDay(totals.seasonFromDay()).toString());
    json.writeBooleanField("clock_trusted", totals.seasonDated());
    amounts(json, totals.season());
  }

  private static void amounts(JsonGenerator json, DoseTotals.Amounts amounts) throws IOException {
    Json.number(json, "chlorine_g", amounts.chlorineG());
    Json.number(json, "acid_ml", amounts.acidMl());
  }
}
