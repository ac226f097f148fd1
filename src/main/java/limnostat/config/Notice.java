package limnostat.config;

/**
 * A remark on an option that is not a fault.
 *
 * @param line its line in the file, from 1
 * @param key dotted key
 * @param text what a person should know
 */
public record Notice(int line, String key, String text) {
  /** One line, {@code key: text}. */
  public String render() {
    return key + " (line " + line + ") " + text;
  }
}
