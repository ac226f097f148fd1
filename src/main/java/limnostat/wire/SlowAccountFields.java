package limnostat.wire;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import limnostat.estimate.Dissolved;
import limnostat.estimate.EstimateState;
import limnostat.estimate.SlowAccount;

/** The fields of the state document that change over weeks. */
final class SlowAccountFields {
  private SlowAccountFields() {}

  static void write(JsonGenerator json, EstimateState estimate) throws IOException {
    SlowAccount slow = estimate.slow();
    write(json, "cyanuric_acid", slow.stabiliser());
    json.writeBooleanField("cyanuric_acid_wanted", estimate.stabiliserWanted());
    write(json, "salt", slow.salt());
    write(json, "calcium_hardness", slow.calciumHardness());
    write(json, "total_alkalinity", slow.totalAlkalinity());
    Json.number(json, "acid_demand_ml_day", slow.acidMlDay());
  }

  private static void write(JsonGenerator json, String name, Dissolved dissolved)
      throws IOException {
    Json.number(json, name + "_mg_l", dissolved.mgL());
    Json.number(json, name + "_sd_mg_l", dissolved.sdMgL());
  }
}
