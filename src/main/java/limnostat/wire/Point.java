package limnostat.wire;

import java.util.Arrays;
import java.util.List;
import limnostat.control.ControlLevel;
import limnostat.control.Mode;
import limnostat.estimate.TestDue;
import limnostat.measure.Status;

/**
 * One value of the state document as other programs see it. Hub discovery and Homie both use this
 * list.
 *
 * @param node the group it belongs to; part of its Homie topic
 * @param id letters, digits and {@code _}; it must never change, because hubs store it
 * @param name name for people
 * @param path dotted path of the field in the document
 * @param form format of the value
 * @param diagnostic whether it is for maintenance rather than everyday use
 */
record Point(String node, String id, String name, String path, Form form, boolean diagnostic) {

  /** The format of a value. */
  sealed interface Form {}

  /**
   * @param unit empty if none
   * @param deviceClass class from the hub's list, which determines the unit; empty if none
   * @param decimals number of decimals worth showing
   * @param sums whether it is a total that only increases
   */
  record Quantity(String unit, String deviceClass, int decimals, boolean sums) implements Form {}

  /**
   * @param deviceClass class from the hub's list; empty if none
   */
  record Flag(String deviceClass) implements Form {}

  record Word(List<String> words) implements Form {
    Word {
      words = List.copyOf(words);
    }
  }

  private static final Word STATUS =
      new Word(Arrays.stream(Status.values()).map(Status::term).toList());

  /**
   * The values of the state document, whatever is fitted. An input that is not fitted has no value.
   */
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
          // Not every version of the hub accepts a weight as a total.
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

  /** A value that can also be set. It is only shown if its command is not permitted. */
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
