package limnostat.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import limnostat.actuate.Output;
import limnostat.safety.Annunciation;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Priority;
import limnostat.scan.ScanSettings;

/**
 * The cause-and-effect matrix as a table for people, in Markdown: what the page of interlocks shows
 * and {@code check} prints. Either as the program has it, or as one installation does.
 */
public final class MatrixTable {
  private MatrixTable() {}

  /**
   * One row.
   *
   * @param when what brings it about, with the installation's limit where there is one
   * @param chlorine {@code inhibit}, {@code limit} or {@code –}
   * @param acid likewise
   * @param alarm priority and what is not as usual, or {@code –}
   * @param cannot why it cannot occur in this installation; empty where it can
   */
  public record Row(
      String cause, String when, String chlorine, String acid, String alarm, String cannot) {
    private String line() {
      String text = cannot.isEmpty() ? when : when + " (cannot occur: " + cannot + ")";
      return String.join(" | ", "| `" + cause + "`", text, chlorine, acid, alarm + " |");
    }
  }

  /** As the program has it. */
  public static List<Row> rows() {
    return Arrays.stream(Cause.values())
        .map(
            cause ->
                new Row(
                    cause.id(),
                    cause.title(),
                    effect(cause.on(Output.CHLORINE)),
                    effect(cause.on(Output.ACID)),
                    alarm(cause),
                    ""))
        .toList();
  }

  /** As one installation has it. */
  public static List<Row> rows(ScanSettings settings) {
    Installed installed = new Installed(settings);
    return Arrays.stream(Cause.values())
        .map(
            cause ->
                new Row(
                    cause.id(),
                    installed.limit(cause).map(l -> cause.title() + ", " + l).orElse(cause.title()),
                    effect(cause.on(Output.CHLORINE)),
                    effect(settings.acid().fitted() ? cause.on(Output.ACID) : Effect.NONE),
                    settings.outOfService().contains(cause)
                        ? alarm(cause) + ", out of service"
                        : alarm(cause),
                    installed.cannot(cause).orElse("")))
        .toList();
  }

  /** As lines of Markdown. */
  public static List<String> lines(List<Row> rows) {
    List<String> lines = new ArrayList<>();
    lines.add("| cause | when | chlorine | acid | alarm |");
    lines.add("|---|---|---|---|---|");
    rows.forEach(row -> lines.add(row.line()));
    return lines;
  }

  private static String effect(Effect effect) {
    return switch (effect) {
      case NONE -> "–";
      case LIMIT -> "limit";
      case INHIBIT -> "inhibit";
    };
  }

  /** Priority, and what is not as usual: 60 s both ways, what is critical at once, no deadband. */
  private static String alarm(Cause cause) {
    Annunciation alarm = cause.annunciation();
    if (alarm.priority() == Priority.NONE) {
      return cause.latching() ? "–, latching" : "–";
    }
    List<String> parts = new ArrayList<>(List.of(alarm.priority().key()));
    if (cause.latching()) {
      parts.add("latching");
    }
    if (alarm.onDelayS() == 0 && alarm.priority() != Priority.CRITICAL) {
      parts.add("at once");
    }
    if (alarm.offDelayS() != Annunciation.USUAL_S) {
      parts.add("gone after " + plain(alarm.offDelayS()) + " s");
    }
    if (alarm.deadband() > 0) {
      parts.add("deadband " + plain(alarm.deadband()) + alarm.unit());
    }
    return String.join(", ", parts);
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }
}
