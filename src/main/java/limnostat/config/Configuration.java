package limnostat.config;

import java.nio.file.Path;
import limnostat.scan.ScanSettings;

/**
 * One checked configuration file.
 *
 * @param siteId id of the installation, {@code [a-z0-9-]}, part of every topic
 * @param periodS scan period of the daemon, s
 */
public record Configuration(
    String siteId,
    double periodS,
    ScanSettings scan,
    FieldSettings field,
    MqttSettings mqtt,
    DiscoverySettings discovery,
    LedgerSettings ledger) {

  /**
   * Reads and checks a file. {@link ConfigurationFile} gives more detail.
   *
   * @throws ConfigurationException with every fault, by position
   */
  public static Configuration load(Path file) throws ConfigurationException {
    return ConfigurationFile.load(file).configuration();
  }
}
