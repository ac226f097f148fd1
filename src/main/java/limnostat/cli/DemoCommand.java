package limnostat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationException;
import limnostat.config.ConfigurationFile;
import limnostat.config.LedgerSettings;
import limnostat.config.MqttSettings;
import limnostat.daemon.service.LogShutdown;
import limnostat.demo.Demo;
import limnostat.demo.DemoBroker;
import limnostat.ledger.LedgerException;
import limnostat.scan.NetworkRules;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/**
 * {@code limnostat demo}: a simulated pool in fast motion, with the shipped configuration. Nothing
 * has to be installed.
 */
@Command(
    name = "demo",
    description = "A simulated pool through a day in about a minute. Touches no hardware.",
    footer = {
      "",
      "Where a mosquitto broker is installed, one is started for the demo on a free port of this",
      "machine, and ended with it. Ctrl-C ends the demo with the outputs off."
    })
final class DemoCommand implements Callable<Integer> {
  private static final long STOP_LIMIT_S = 15;

  @Option(
      names = "--speed",
      paramLabel = "N",
      defaultValue = "1440",
      description = "Simulated seconds a second; 1440 is a day a minute (1 to 100000).")
  private double speed;

  @Option(
      names = "--days",
      paramLabel = "N",
      defaultValue = "1",
      description = "Days to simulate (1 to 366).")
  private int days;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of weather, people and noise.")
  private long seed;

  @Option(
      names = "--broker",
      paramLabel = "HOST[:PORT]",
      description = "Use this broker instead of starting one.")
  private String broker;

  @Spec private CommandSpec spec;

  private final CountDownLatch closed = new CountDownLatch(1);

  @Override
  public Integer call()
      throws ConfigurationException, IOException, LedgerException, InterruptedException {
    if (!(speed >= 1 && speed <= 100_000) || days < 1 || days > 366) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--speed is 1 to 100000 and --days 1 to 366");
    }
    // The table shows what happens; the log is only for problems. This must be set before any
    // logger is used.
    System.setProperty("tinylog.level", "warn");
    Path folder = Files.createTempDirectory("limnostat-demo-");
    Configuration configuration = shipped(folder);
    try (DemoBroker started = openBroker()) {
      Demo demo =
          new Demo(
              with(configuration, started.settings(), folder),
              started,
              new Demo.Pace(speed, days),
              seed);
      Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(demo), "stop"));
      demo.run();
      return Limnostat.DONE;
    } finally {
      LogShutdown.flush(Duration.ofSeconds(2));
      closed.countDown();
    }
  }

  private DemoBroker openBroker() throws IOException, InterruptedException {
    try {
      return DemoBroker.of(Optional.ofNullable(broker));
    } catch (IllegalArgumentException e) {
      throw new CommandLine.ParameterException(spec.commandLine(), e.getMessage(), e);
    }
  }

  /** The option file as shipped. It is part of the program. */
  private static Configuration shipped(Path folder) throws IOException, ConfigurationException {
    Path file = folder.resolve("limnostat.toml");
    try (var in = DemoCommand.class.getResourceAsStream("/limnostat.toml")) {
      Files.copy(in, file, StandardCopyOption.REPLACE_EXISTING);
    }
    return ConfigurationFile.load(file).configuration();
  }

  private static Configuration with(Configuration c, MqttSettings mqtt, Path folder) {
    return new Configuration(
        c.siteId(),
        c.periodS(),
        c.scan().with(NetworkRules.OPEN), // the clock is simulated, and so is the pool
        c.field(),
        mqtt,
        c.discovery(),
        new LedgerSettings(
            folder.resolve("limnostat.db"),
            c.ledger().readingsEveryS(),
            c.ledger().keepReadingsDays()));
  }

  private void stop(Demo demo) {
    demo.stop();
    try {
      if (!closed.await(STOP_LIMIT_S, TimeUnit.SECONDS)) {
        System.err.println("limnostat: not everything closed within " + STOP_LIMIT_S + " s");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
