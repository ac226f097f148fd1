package limnostat.wire;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.ScanSettings;

/**
 * What others are told of an installation that is not in its state.
 *
 * @param siteId {@code [a-z0-9-]}
 * @param topic its own topics are below this
 * @param version of the program
 * @param settings for the limits of what may be set
 * @param allows whether commands of a type may be sent over the network; nothing else is offered
 * @param homie whether it is a Homie device; then that device's state is its availability
 */
public record Installation(
    String siteId,
    String topic,
    String version,
    ScanSettings settings,
    Predicate<String> allows,
    boolean homie) {

  /** Its id for others; no other client of the broker has it. */
  public String deviceId() {
    return "limnostat-" + siteId;
  }

  String topic(String subtopic) {
    return topic + "/" + subtopic;
  }

  List<Control> controls() {
    return Control.of(settings).stream().filter(c -> allows.test(c.type())).toList();
  }

  /** What can be set in principle, but not over this network: it is shown all the same. */
  List<Point> shown() {
    return Control.of(settings).stream()
        .filter(c -> !allows.test(c.type()))
        .flatMap(c -> c.shows().stream())
        .toList();
  }

  static List<Cause> alarms() {
    return Arrays.stream(Cause.values()).filter(c -> c.priority() != Priority.NONE).toList();
  }

  /** What waits for a person's reset. */
  static List<Cause> resettable() {
    return Arrays.stream(Cause.values())
        .filter(c -> c.latching() || c == Cause.RESTART_LOOP)
        .toList();
  }
}
