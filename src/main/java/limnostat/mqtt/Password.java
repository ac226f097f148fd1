package limnostat.mqtt;

import java.util.Optional;
import limnostat.config.ConfigurationException;

/**
 * The password of the settings' user, asked for at each attempt, so that a corrected one serves.
 */
@FunctionalInterface
public interface Password {
  /**
   * As it is now; never logged.
   *
   * @throws ConfigurationException it cannot be read; what, where and the mend
   */
  Optional<char[]> read() throws ConfigurationException;

  /** One that stays as it is. */
  static Password fixed(Optional<char[]> password) {
    Optional<char[]> own = password.map(char[]::clone);
    return () -> own.map(char[]::clone);
  }
}
