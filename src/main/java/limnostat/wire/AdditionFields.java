package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.OptionalDouble;
import limnostat.estimate.Addition;
import limnostat.estimate.Additions;
import limnostat.estimate.Product;
import limnostat.estimate.UnfedChlorine;

/** What people added to the pool, for the state, for events and for the answer to addition_list. */
final class AdditionFields {
  private AdditionFields() {}

  /** Writes the fields of the state document. */
  static void write(JsonGenerator json, Additions additions) throws IOException {
    list(json, additions);
    Json.number(json, "chlorine_by_hand_total_g", additions.chlorineG());
    UnfedChlorine unfed = additions.unfed();
    Json.number(
        json,
        "addition_suspected_age_s",
        unfed.standing() ? OptionalDouble.of(unfed.ageS()) : OptionalDouble.empty());
  }

  /** Writes the list, latest first. */
  static void list(JsonGenerator json, Additions additions) throws IOException {
    json.writeArrayFieldStart("additions");
    for (int i = additions.kept().size() - 1; i >= 0; i--) {
      Addition addition = additions.kept().get(i);
      json.writeStartObject();
      fields(json, addition, additions.ageS(addition));
      json.writeBooleanField("undone", addition.undone());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /**
   * Writes one addition.
   *
   * @param ageS time since it went in, s
   */
  static void fields(JsonGenerator json, Addition addition, double ageS) throws IOException {
    json.writeStringField("addition", addition.id());
    json.writeStringField("what", addition.product().key());
    Json.number(json, amountField(addition.product().measure()), addition.amount());
    if (addition.percent() > 0) {
      Json.number(json, "strength_percent", addition.percent());
    }
    Json.number(json, "age_s", ageS);
    if (addition.product().chlorine()) {
      Json.number(json, "free_chlorine_mg_l", addition.change().freeChlorineMgL());
    }
  }

  private static String amountField(Product.Measure measure) {
    return switch (measure) {
      case G -> "amount_g";
      case ML -> "amount_ml";
      case L -> "amount_l";
    };
  }
}
