package limnostat.config;

/**
 * A word on an option that is no fault.
 *
 * @param line where it stands, from 1
 * @param key dotted key
 * @param text what a person should know
 */
public record Notice(int line, String key, String text) {
  /** One line, {@code key: text}. */
  public String render() {
    return key + " (line " + line + ") " + text;
  }
}
