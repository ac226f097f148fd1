package limnostat.mqtt;

import java.util.Optional;
import limnostat.config.ConfigurationException;

/**
 * The password of the configured user. It is read at each attempt, so that a corrected one takes
 * effect.
 */
@FunctionalInterface
public interface Password {
  /**
   * The current password; never logged.
   *
   * @throws ConfigurationException it cannot be read; the message says what, where and how to fix
   *     it
   */
  Optional<char[]> read() throws ConfigurationException;

  /** A password that does not change. */
  static Password fixed(Optional<char[]> password) {
    Optional<char[]> own = password.map(char[]::clone);
    return () -> own.map(char[]::clone);
  }
}
