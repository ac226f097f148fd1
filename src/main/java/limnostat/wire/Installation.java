package limnostat.wire;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.ScanSettings;

/**
 * What other programs learn about an installation that is not part of its state.
 *
 * @param siteId {@code [a-z0-9-]}
 * @param topic prefix of its own topics
 * @param version version of the program
 * @param settings source of the limits for values that may be set
 * @param allows whether commands of a type are permitted over the network; no others are offered
 * @param homie whether it is a Homie device; if so, the state of that device is its availability
 */
public record Installation(
    String siteId,
    String topic,
    String version,
    ScanSettings settings,
    Predicate<String> allows,
    boolean homie) {

  /** Its id for other programs. No other client of the broker may have it. */
  public String deviceId() {
    return "limnostat-" + siteId;
  }

  String topic(String subtopic) {
    return topic + "/" + subtopic;
  }

  List<Control> controls() {
    return Control.of(settings).stream().filter(c -> allows.test(c.type())).toList();
  }

  /** Values that can be set, but not over this network. They are still shown. */
  List<Point> shown() {
    return Control.of(settings).stream()
        .filter(c -> !allows.test(c.type()))
        .flatMap(c -> c.shows().stream())
        .toList();
  }

  static List<Cause> alarms() {
    return Arrays.stream(Cause.values()).filter(c -> c.priority() != Priority.NONE).toList();
  }

  /** The causes that a person has to reset. */
  static List<Cause> resettable() {
    return Arrays.stream(Cause.values())
        .filter(c -> c.latching() || c == Cause.RESTART_LOOP)
        .toList();
  }
}
