package limnostat.config;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.tomlj.TomlPosition;

/** What was read from one file: accepted values, defaults, and the position of each. */
final class Values {
  private final Map<String, Object> accepted = new HashMap<>();
  private final Set<String> written = new HashSet<>();
  private final Map<String, TomlPosition> positions = new HashMap<>();
  private final Set<String> tables = new HashSet<>();
  private final List<Notice> notices = new ArrayList<>();

  void notice(Notice notice) {
    notices.add(notice);
  }

  /** Remarks that are not faults, in the order of the file. */
  List<Notice> notices() {
    return notices.stream().sorted(Comparator.comparingInt(Notice::line)).toList();
  }

  void table(String path, TomlPosition position) {
    tables.add(path);
    positions.put(path, position);
  }

  void written(Option<?> option, TomlPosition position) {
    written.add(option.path());
    positions.put(option.path(), position);
  }

  void accept(String path, Object value) {
    accepted.put(path, value);
  }

  boolean hasTable(String path) {
    return tables.contains(path);
  }

  /** Whether the option is in the file, accepted or not. */
  boolean isWritten(Option<?> option) {
    return written.contains(option.path());
  }

  /** The value from the file, or the default; empty if there is none or it was refused. */
  @SuppressWarnings("unchecked") // only accept() fills the map, with values from the option's form
  <T> Optional<T> find(Option<T> option) {
    return Optional.ofNullable((T) accepted.get(option.path()));
  }

  /** The value, which must be present because the file was accepted. */
  <T> T get(Option<T> option) {
    return find(option)
        .orElseThrow(() -> new IllegalStateException("no value for " + option.path()));
  }

  /**
   * The position of a key or table, else of the nearest enclosing table, else the start of the
   * file.
   */
  TomlPosition positionOf(String path) {
    for (String at = path; !at.isEmpty(); at = parent(at)) {
      if (positions.containsKey(at)) {
        return positions.get(at);
      }
    }
    return Errors.START;
  }

  private static String parent(String path) {
    int dot = path.lastIndexOf('.');
    return dot < 0 ? "" : path.substring(0, dot);
  }
}
