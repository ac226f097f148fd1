package limnostat.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationException;
import limnostat.config.ConfigurationFile;
import limnostat.config.PasswordSource;
import limnostat.daemon.BootClock;
import limnostat.daemon.Daemon;
import limnostat.daemon.EventLog;
import limnostat.daemon.FieldFactory;
import limnostat.daemon.LedgerOpening;
import limnostat.daemon.Service;
import limnostat.daemon.service.LogShutdown;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.ledger.LedgerException;
import limnostat.mqtt.Password;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code limnostat run}: the daemon. */
@Command(
    name = "run",
    description = "Runs the daemon until it is stopped.",
    footer = {
      "",
      "Outputs are off before the first complete scan and on every way out of the process."
    })
final class RunCommand implements Callable<Integer> {
  private static final long STOP_LIMIT_S = 15;

  /**
   * Opens once everything is closed. The shutdown hook waits for it; otherwise the process would
   * end too early.
   */
  private final CountDownLatch closed = new CountDownLatch(1);

  private final ServiceNotifier notifier = ServiceNotifier.fromEnvironment();

  @Mixin private ConfigOption config;

  @Override
  public Integer call() throws ConfigurationException {
    ConfigurationFile file = config.load();
    Configuration configuration = file.configuration();
    PasswordSource source =
        new PasswordSource(
            configuration.mqtt(),
            Optional.ofNullable(System.getenv("CREDENTIALS_DIRECTORY")).map(Path::of));
    Optional<PasswordSource.Password> first = source.read();
    Thread.currentThread().setName("scan");
    notifier.starting(Daemon.START_S); // opening the field and the ledger takes time too
    EventLog log = new EventLog();
    first.flatMap(PasswordSource.Password::warning).ifPresent(log::warn);
    file.notices().forEach(notice -> log.warn(notice.render()));
    BootClock clock = BootClock.ofSystem();
    try (log) {
      return run(file, clock, () -> source.read().map(PasswordSource.Password::characters), log);
    } finally {
      LogShutdown.flush(Duration.ofSeconds(2));
      closed.countDown();
    }
  }

  /** The log outlives the rest. Otherwise a failure to open the rest would never be reported. */
  private int run(ConfigurationFile file, BootClock clock, Password password, EventLog log) {
    Configuration configuration = file.configuration();
    // The field comes first, because it switches the outputs off.
    try (Field field = FieldFactory.open(configuration, clock.clock().unixTimeS());
        LedgerOpening opening = new LedgerOpening(configuration.ledger())) {
      Service service = new Service(file, clock, field, password, opening, notifier, log);
      Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(service), "stop"));
      service.run();
      return Limnostat.DONE;
    } catch (FieldException | LedgerException e) {
      log.warn(e.getMessage());
      return Limnostat.FAILED;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Limnostat.FAILED;
    }
  }

  /**
   * The scan thread shuts everything down in order, outputs first, while the signal thread waits.
   */
  private void stop(Service service) {
    service.stop();
    try {
      if (!closed.await(STOP_LIMIT_S, TimeUnit.SECONDS)) {
        System.err.println("limnostat: not everything closed within " + STOP_LIMIT_S + " s");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
