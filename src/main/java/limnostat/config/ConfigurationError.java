package limnostat.config;

import java.nio.file.Path;
import java.util.Comparator;

/**
 * One fault of a configuration file.
 *
 * @param file the file
 * @param line from 1
 * @param column from 1
 * @param key dotted key; empty if the fault belongs to no key
 * @param what the fault
 * @param limit what is accepted; may be empty
 * @param mend how to correct it; may be empty
 */
public record ConfigurationError(
    Path file, int line, int column, String key, String what, String limit, String mend) {

  static final Comparator<ConfigurationError> BY_POSITION =
      Comparator.comparingInt(ConfigurationError::line)
          .thenComparingInt(ConfigurationError::column)
          .thenComparing(ConfigurationError::key);

  /** One line, {@code file:line:column: key: what; limit; mend}; empty parts are left out. */
  public String render() {
    StringBuilder text = new StringBuilder();
    text.append(file).append(':').append(line).append(':').append(column).append(": ");
    if (!key.isEmpty()) {
      text.append(key).append(": ");
    }
    text.append(what);
    for (String part : new String[] {limit, mend}) {
      if (!part.isEmpty()) {
        text.append("; ").append(part);
      }
    }
    // Part of the text comes from the file. It must not be able to start a new line or send control
    // codes to a terminal.
    return text.toString().replaceAll("\\p{Cntrl}", "?");
  }
}
