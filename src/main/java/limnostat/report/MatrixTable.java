package limnostat.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limnostat.actuate.Output;
import limnostat.safety.Annunciation;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Priority;

/**
 * The cause-and-effect matrix as a table for people, in Markdown: what the README shows and {@code
 * check} prints.
 */
public final class MatrixTable {
  private MatrixTable() {}

  public static List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add("| cause | when | chlorine | acid | alarm |");
    lines.add("|---|---|---|---|---|");
    for (Cause cause : Cause.values()) {
      lines.add(
          String.join(
              " | ",
              "| `" + cause.id() + "`",
              cause.title(),
              effect(cause.on(Output.CHLORINE)),
              effect(cause.on(Output.ACID)),
              alarm(cause) + " |"));
    }
    return lines;
  }

  private static String effect(Effect effect) {
    return effect == Effect.NONE ? "–" : effect.name().toLowerCase(Locale.ROOT);
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
