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
 * The cause-and-effect matrix as a Markdown table for people. The interlocks page shows it and
 * {@code check} prints it. It covers either the program in general or one installation.
 */
public final class MatrixTable {
  private MatrixTable() {}

  /**
   * One row.
   *
   * @param when what triggers the cause, with the installation's limit if there is one
   * @param chlorine {@code inhibit}, {@code limit} or {@code –}
   * @param acid as for chlorine
   * @param alarm priority and anything that differs from the defaults, or {@code –}
   * @param cannot why it cannot occur in this installation; empty if it can
   */
  public record Row(
      String cause, String when, String chlorine, String acid, String alarm, String cannot) {
    private String line() {
      String text = cannot.isEmpty() ? when : when + " (cannot occur: " + cannot + ")";
      return String.join(" | ", "| `" + cause + "`", text, chlorine, acid, alarm + " |");
    }
  }

  /** The rows for the program in general. */
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

  /** The rows for one installation. */
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

  /** The rows as lines of Markdown. */
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

  /**
   * Priority, and anything that differs from the defaults: 60 s both ways, critical alarms at once,
   * no deadband.
   */
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
