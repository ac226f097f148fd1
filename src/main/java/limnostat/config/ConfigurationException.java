package limnostat.config;

import java.util.List;
import java.util.stream.Collectors;

/** A configuration that cannot be used, with every fault found in it. */
public final class ConfigurationException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<ConfigurationError> errors;

  ConfigurationException(List<ConfigurationError> errors) {
    super(errors.stream().map(ConfigurationError::render).collect(Collectors.joining("\n")));
    this.errors = List.copyOf(errors);
  }

  /** All faults, by position. */
  public List<ConfigurationError> errors() {
    return errors;
  }
}
