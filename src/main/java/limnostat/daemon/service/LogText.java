package limnostat.daemon.service;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import org.tinylog.Level;
import org.tinylog.core.LogEntry;

/**
 * The lines of a log entry: always one line with the message and the chain of causes. Stack traces
 * are added only for an error, since a warning is about the outside world and not about our code.
 */
final class LogText {
  private LogText() {}

  static List<String> lines(LogEntry entry) {
    Throwable thrown = entry.getException();
    List<Throwable> chain = chain(thrown);
    StringBuilder first = new StringBuilder();
    if (entry.getMessage() != null) {
      first.append(SingleLine.of(entry.getMessage()));
    }
    for (Throwable link : chain) {
      first.append(first.isEmpty() ? "" : ": ").append(SingleLine.of(link.toString()));
    }
    List<String> lines = new ArrayList<>();
    lines.add(first.toString());
    if (entry.getLevel() == Level.ERROR) {
      for (Throwable link : chain) {
        if (link != thrown) {
          lines.add("Caused by " + link.getClass().getName());
        }
        for (StackTraceElement frame : link.getStackTrace()) {
          lines.add("\tat " + SingleLine.of(frame.toString()));
        }
        for (Throwable suppressed : link.getSuppressed()) {
          lines.add("\tSuppressed: " + SingleLine.of(suppressed.toString()));
        }
      }
    }
    return lines;
  }

  /** The exception and its causes. A chain may be a loop; it ends where it repeats. */
  private static List<Throwable> chain(Throwable thrown) {
    Set<Throwable> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    List<Throwable> chain = new ArrayList<>();
    for (Throwable link = thrown; link != null && seen.add(link); link = link.getCause()) {
      chain.add(link);
    }
    return chain;
  }
}
