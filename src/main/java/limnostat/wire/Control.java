package limnostat.wire;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import limnostat.estimate.Glance;
import limnostat.estimate.Tested;
import limnostat.safety.HardBounds;
import limnostat.scan.ScanSettings;

/**
 * A value that other programs may set: one field of one command. Hub discovery and Homie both use
 * this list.
 *
 * @param type type of the command
 * @param field field of the command that takes the value
 * @param shows the point that shows the current value; empty if the value is only sent and not
 *     shown
 * @param id same rules as the id of a point
 * @param form words, or a number with its unit
 * @param min smallest number
 * @param max largest number; what the program accepts at a given time may be less
 * @param step increment for numbers
 */
record Control(
    String type,
    String field,
    Optional<Point> shows,
    String id,
    String name,
    Point.Form form,
    double min,
    double max,
    double step) {

  /** The JSON number format, limited to a length that a person would type. */
  private static final Pattern NUMBER = Pattern.compile("-?\\d{1,12}(\\.\\d{1,12})?");

  /** All controls, with ranges within the installer's limits. */
  static List<Control> of(ScanSettings settings) {
    List<Control> controls = new ArrayList<>();
    controls.add(shown("mode", "mode", Point.MODE, 0, 0, 0));
    controls.add(
        shown(
            "target",
            "free_chlorine_mg_l",
            Point.TARGET,
            HardBounds.TARGET_MIN_MG_L,
            settings.limits().targetMaxMgL(),
            0.1));
    controls.add(
        shown(
            "superchlorinate",
            "free_chlorine_mg_l",
            Point.SUPERCHLORINATION,
            0,
            settings.limits().superchlorinationMaxMgL(),
            0.5));
    controls.add(test(Tested.FREE_CHLORINE));
    controls.add(
        new Control(
            "test_result",
            "free_chlorine_quick",
            Optional.empty(),
            "test_free_chlorine_quick",
            "Water test: free chlorine at a glance",
            new Point.Word(Arrays.stream(Glance.values()).map(Glance::key).toList()),
            0,
            0,
            0));
    EnumSet.complementOf(EnumSet.of(Tested.FREE_CHLORINE))
        .forEach(quantity -> controls.add(test(quantity)));
    return controls;
  }

  private static Control shown(
      String type, String field, Point point, double min, double max, double step) {
    return new Control(
        type, field, Optional.of(point), point.id(), point.name(), point.form(), min, max, step);
  }

  private static Control test(Tested quantity) {
    return new Control(
        "test_result",
        quantity.key(),
        Optional.empty(),
        "test_" + quantity.id(),
        "Water test: " + quantity.words(),
        new Point.Quantity(quantity.unit(), "", 2, false),
        quantity.min(),
        quantity.max(),
        quantity.step());
  }

  /** The command that sets it. The reader refuses a value that is not a number. */
  ObjectNode command(String value) {
    ObjectNode command = JsonNodeFactory.instance.objectNode().put("type", type);
    return form instanceof Point.Quantity && NUMBER.matcher(value).matches()
        ? command.put(field, new BigDecimal(value))
        : command.put(field, value);
  }

  /** The same command with a placeholder, which the hub replaces with the value. */
  String template() {
    String place = form instanceof Point.Quantity ? "{{ value }}" : "\"{{ value }}\"";
    return "{\"type\":\"" + type + "\",\"" + field + "\":" + place + "}";
  }
}
