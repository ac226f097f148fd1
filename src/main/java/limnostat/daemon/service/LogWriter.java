package limnostat.daemon.service;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Map;
import org.tinylog.Level;
import org.tinylog.core.LogEntry;
import org.tinylog.core.LogEntryValue;
import org.tinylog.writers.Writer;

/**
 * Writes log entries to standard error. For the journal, every line carries its priority, because
 * the journal takes each line separately and adds the time itself. For people, each entry carries
 * time and level. Only tinylog's writing thread calls this class, so only that thread hangs when
 * nobody reads.
 */
public final class LogWriter implements Writer {
  private final PrintStream out;
  private final boolean toJournal;
  private final DateTimeFormatter time;

  /**
   * Constructor that tinylog calls.
   *
   * @param properties the writer's settings; it has none
   */
  public LogWriter(Map<String, String> properties) {
    this(System.err, stderrIsJournal(System.getenv("JOURNAL_STREAM")), ZoneId.systemDefault());
  }

  LogWriter(PrintStream out, boolean toJournal, ZoneId zone) {
    this.out = out;
    this.toJournal = toJournal;
    this.time = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss").withZone(zone);
  }

  @Override
  public Collection<LogEntryValue> getRequiredLogEntryValues() {
    return EnumSet.of(
        LogEntryValue.DATE, LogEntryValue.LEVEL, LogEntryValue.MESSAGE, LogEntryValue.EXCEPTION);
  }

  @Override
  public void write(LogEntry entry) {
    StringBuilder text = new StringBuilder();
    for (String line : LogText.lines(entry)) {
      if (toJournal) {
        text.append(priority(entry.getLevel()));
      } else if (text.isEmpty()) {
        text.append(time.format(entry.getTimestamp().toInstant()));
        text.append(' ').append(entry.getLevel()).append(' ');
      }
      text.append(line).append('\n');
    }
    // As bytes, because the stream itself encodes by the locale, and a service's locale has no
    // degree sign. In one piece, so that nothing else on standard error comes between the lines.
    byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
    out.write(bytes, 0, bytes.length);
    out.flush();
  }

  @Override
  public void flush() {
    out.flush();
  }

  @Override
  public void close() {
    // Standard error belongs to the process, so it stays open.
    out.flush();
  }

  /** The levels of syslog(3), as sd-daemon(3) expects them. */
  private static String priority(Level level) {
    return switch (level) {
      case ERROR, OFF -> "<3>";
      case WARN -> "<4>";
      case INFO -> "<6>";
      case DEBUG, TRACE -> "<7>";
    };
  }

  /**
   * Whether standard error is the stream that {@code JOURNAL_STREAM} names by device and inode. The
   * variable alone proves nothing: a shell in a desktop's terminal inherits it.
   */
  private static boolean stderrIsJournal(String journalStream) {
    if (journalStream == null) {
      return false;
    }
    Path stderr = Path.of("/proc/self/fd/2");
    // If there is nothing to compare with, and no log yet to say so, the variable is trusted.
    if (!stderr.getFileSystem().supportedFileAttributeViews().contains("unix")) {
      return true;
    }
    try {
      return journalStream.equals(
          Files.getAttribute(stderr, "unix:dev") + ":" + Files.getAttribute(stderr, "unix:ino"));
    } catch (IOException e) {
      return true; // trusted as above
    }
  }
}
