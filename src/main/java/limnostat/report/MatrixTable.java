package limnostat.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limnostat.actuate.Output;
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

  private static String alarm(Cause cause) {
    String priority = cause.priority() == Priority.NONE ? "–" : cause.priority().key();
    return cause.latching() ? priority + ", latching" : priority;
  }
}
