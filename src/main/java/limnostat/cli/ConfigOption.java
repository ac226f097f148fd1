package limnostat.cli;

import java.nio.file.Path;
import limnostat.config.ConfigurationException;
import limnostat.config.ConfigurationFile;
import picocli.CommandLine.Option;

/** The option that names the configuration file. */
final class ConfigOption {
  @Option(
      names = {"-c", "--config"},
      paramLabel = "FILE",
      required = true,
      description = "The configuration file (TOML).")
  private Path file;

  ConfigurationFile load() throws ConfigurationException {
    return ConfigurationFile.load(file);
  }
}
