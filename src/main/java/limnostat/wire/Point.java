package limnostat.wire;

import java.util.Arrays;
import java.util.List;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.estimate.TestDue;
import limnostat.measure.Status;

/**
 * One value of the state document as others are told of it: a hub's discovery and Homie both follow
 * this list.
 *
 * @param node what it belongs to; a part of its Homie topic
 * @param id of letters, digits and {@code _}; never to be changed, hubs keep it
 * @param name for people
 * @param path fields that lead to it in the document, with dots
 * @param form what it looks like
 * @param diagnostic for those who look after the plant, not for everyday
 */
record Point(String node, String id, String name, String path, Form form, boolean diagnostic) {

  /** What a value looks like. */
  sealed interface Form {}

  /**
   * @param unit empty: none
   * @param deviceClass by the hub's list, which fixes the unit; empty: none
   * @param decimals that are worth showing
   * @param sums whether it only ever grows
   */
  record Quantity(String unit, String deviceClass, int decimals, boolean sums) implements Form {}

  /**
   * @param deviceClass by the hub's list; empty: none
   */
  record Flag(String deviceClass) implements Form {}

  record Word(List<String> words) implements Form {
    Word {
      words = List.copyOf(words);
    }
  }

  private static final Word STATUS =
      new Word(Arrays.stream(Status.values()).map(Status::term).toList());

  /** The state document, whatever is fitted; what is not has no value. */
  static final List<Point> OF_STATE =
      List.of(
          number("water", "free_chlorine", "Free chlorine", "free_chlorine_mg_l", "mg/L", 1),
          number(
              "water",
              "free_chlorine_sd",
              "Free chlorine, standard deviation",
              "free_chlorine_sd_mg_l",
              "mg/L",
              2),
          classed("water", "ph", "pH", "ph", "", "ph", 2),
          classed("water", "orp", "ORP", "orp_mv", "mV", "voltage", 0),
          classed("water", "temperature", "Water temperature", "water_c", "°C", "temperature", 1),
          flag("water", "flow", "Flow", "flow", "running"),
          number("water", "cyanuric_acid", "Stabiliser", "cyanuric_acid_mg_l", "mg/L", 0),
          number("water", "salt", "Salt", "salt_mg_l", "mg/L", 0),
          number(
              "water", "calcium_hardness", "Calcium hardness", "calcium_hardness_mg_l", "mg/L", 0),
          number(
              "water", "total_alkalinity", "Total alkalinity", "total_alkalinity_mg_l", "mg/L", 0),
          word(
              "water",
              "test_due",
              "Water test wanted",
              "test_due",
              Arrays.stream(TestDue.values()).map(TestDue::key).toList()),
          flag("water", "reentry_hold", "No bathing yet", "reentry_hold", "safety"),
          number("plant", "duty", "Chlorine demanded", "duty", "", 2),
          number("plant", "chlorine_output", "Chlorine output", "outputs.chlorine", "", 2),
          number("plant", "acid_output", "Acid output", "outputs.acid", "", 2),
          flag("plant", "pump_request", "Pump wanted", "outputs.pump_request", "running"),
          classed("plant", "solar", "Sun", "solar_w_m2", "W/m²", "irradiance", 0),
          flag("plant", "alarm_flood", "Flood of alarms", "alarm_flood", "problem"),
          word(
              "plant",
              "control_level",
              "Control stands on",
              "control_level",
              Arrays.stream(ControlLevel.values()).map(ControlLevel::key).toList()),
          classed(
              "plant",
              "superchlorination_left",
              "Superchlorination left",
              "superchlorination_left_s",
              "s",
              "duration",
              0),
          classed(
              "plant",
              "function_check_left",
              "Function check left",
              "function_check_left_s",
              "s",
              "duration",
              0),
          number("doses", "demand", "Chlorine demand", "demand_mg_l_day", "mg/L/d", 2),
          number("doses", "acid_demand", "Acid demand", "acid_demand_ml_day", "mL/d", 0),
          number("doses", "chlorine_hour", "Chlorine, 60 minutes", "chlorine_hour_g", "g", 1),
          number("doses", "chlorine_day", "Chlorine, 24 hours", "chlorine_day_g", "g", 1),
          // A weight is no sum to every version of the hub.
          sum("doses", "chlorine_total", "Chlorine ever", "chlorine_total_g", "g", ""),
          number("doses", "acid_hour", "Acid, 60 minutes", "acid_hour_ml", "mL", 0),
          number("doses", "acid_day", "Acid, 24 hours", "acid_day_ml", "mL", 0),
          sum("doses", "acid_total", "Acid ever", "acid_total_ml", "mL", "volume"),
          number("doses", "chlorine_season", "Chlorine, season", "season.chlorine_g", "g", 0),
          number("doses", "acid_season", "Acid, season", "season.acid_ml", "mL", 0),
          diagnostic(word("status", "ph_status", "pH status", "status.ph", STATUS.words())),
          diagnostic(word("status", "orp_status", "ORP status", "status.orp_mv", STATUS.words())),
          diagnostic(
              word(
                  "status",
                  "temperature_status",
                  "Water temperature status",
                  "status.water_c",
                  STATUS.words())),
          diagnostic(
              classed(
                  "status",
                  "orp_setpoint",
                  "ORP set point",
                  "diagnostics.orp_setpoint_mv",
                  "mV",
                  "voltage",
                  0)),
          diagnostic(
              classed(
                  "status",
                  "electrode_offset",
                  "Electrode offset",
                  "diagnostics.electrode_offset_mv",
                  "mV",
                  "voltage",
                  0)),
          diagnostic(
              number("status", "output_gain", "Output gain", "diagnostics.output_gain", "", 2)));

  /** What can be set too; shown only, where its command is not allowed. */
  static final Point MODE =
      word("control", "mode", "Mode", "mode", Arrays.stream(Mode.values()).map(Mode::key).toList());

  static final Point TARGET =
      number("control", "target", "Target", "target_free_chlorine_mg_l", "mg/L", 1);

  static final Point SUPERCHLORINATION =
      number(
          "control", "superchlorination", "Superchlorination", "superchlorination_mg_l", "mg/L", 1);

  private static Point number(
      String node, String id, String name, String path, String unit, int decimals) {
    return classed(node, id, name, path, unit, "", decimals);
  }

  private static Point classed(
      String node,
      String id,
      String name,
      String path,
      String unit,
      String deviceClass,
      int decimals) {
    return new Point(node, id, name, path, new Quantity(unit, deviceClass, decimals, false), false);
  }

  private static Point sum(
      String node, String id, String name, String path, String unit, String deviceClass) {
    return new Point(node, id, name, path, new Quantity(unit, deviceClass, 0, true), false);
  }

  private static Point flag(String node, String id, String name, String path, String deviceClass) {
    return new Point(node, id, name, path, new Flag(deviceClass), false);
  }

  private static Point word(String node, String id, String name, String path, List<String> words) {
    return new Point(node, id, name, path, new Word(words), false);
  }

  private static Point diagnostic(Point point) {
    return new Point(point.node, point.id, point.name, point.path, point.form, true);
  }
}
