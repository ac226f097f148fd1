package limnostat.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.tomlj.TomlPosition;

/** Collects the faults of one file, so that a person sees all of them at once. */
final class Errors {
  static final TomlPosition START = TomlPosition.positionAt(1, 1);

  private final Path file;
  private final List<ConfigurationError> found = new ArrayList<>();

  Errors(Path file) {
    this.file = file;
  }

  void add(TomlPosition position, String key, String what, String limit, String mend) {
    found.add(
        new ConfigurationError(file, position.line(), position.column(), key, what, limit, mend));
  }

  /** Collects the faults of one value. */
  Refusals of(TomlPosition position, String key) {
    return new Refusals(this, position, key);
  }

  void throwIfAny() throws ConfigurationException {
    if (!found.isEmpty()) {
      throw new ConfigurationException(
          found.stream().sorted(ConfigurationError.BY_POSITION).toList());
    }
  }
}
