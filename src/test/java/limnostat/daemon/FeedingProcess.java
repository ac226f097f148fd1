package limnostat.daemon;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.field.SimulatedField;
import limnostat.ledger.Ledger;
import limnostat.ledger.TestLedgers;
import limnostat.measure.Signals;
import limnostat.mqtt.Link;
import limnostat.plant.Pool;

/**
 * The daemon as it is, with its ledger on the disk, but by {@link HurriedClock} and on a pool whose
 * feeder keeps a book of its own, from which the test knows what really went in.
 */
final class FeedingProcess {
  private static final CountDownLatch FED = new CountDownLatch(1);

  private FeedingProcess() {}

  /**
   * @param args configuration, the feeder's book, and what befalls the process, where something
   *     does: {@code stop}s a second after it feeds, or after eight, or a {@link Trouble}
   */
  public static void main(String[] args) throws Exception {
    Configuration configuration = ConfigurationFile.load(Path.of(args[0])).configuration();
    BootClock clock = HurriedClock.ofBoot();
    double unixTimeS = clock.clock().unixTimeS();
    try (EventLog log = new EventLog();
        Field field =
            new Feeder(
                new SimulatedField(new Pool(FieldFactory.plant(configuration, 1), unixTimeS)),
                new FileOutputStream(args[1], true),
                Trouble.of(args.length > 2 ? args[2] : "none"));
        Ledger ledger = TestLedgers.busy(configuration.ledger(), 60, 0.1);
        Link link = new Link(configuration.mqtt(), configuration.siteId(), Optional.empty())) {
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), clock);
      log.info(resume.note());
      ScanCycle cycle =
          ScanCycle.open(
              configuration, new ScanCycle.Surroundings(field, ledger, link, clock, log), resume);
      new LastResort(cycle::off).install();
      Daemon daemon =
          new Daemon(
              cycle,
              field,
              new CommandInbox(link),
              log,
              ServiceNotifier.fromEnvironment(),
              new HealthTopic(link, ledger, clock.clock()),
              configuration.periodS());
      if (args.length > 2 && args[2].equals("stop")) {
        Thread stop = new Thread(() -> stopOnceFed(daemon), "stop");
        stop.setDaemon(true);
        stop.start();
      }
      Runtime.getRuntime().addShutdownHook(new Thread(daemon::stop, "term"));
      daemon.run();
    }
  }

  private static void stopOnceFed(Daemon daemon) {
    try {
      FED.await(7, TimeUnit.SECONDS);
      Thread.sleep(1000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    daemon.stop();
  }

  /** Writes down each level at the moment at which it begins, outside of all that is tested. */
  private record Feeder(SimulatedField pool, OutputStream book, Trouble trouble) implements Field {
    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      trouble.befall();
      return pool.read(monotonicS, unixTimeS);
    }

    @Override
    public void write(Outputs outputs) {
      note(outputs.chlorine());
      trouble.feeds(outputs.chlorine() > 0);
      if (outputs.chlorine() > 0) {
        FED.countDown();
      }
      pool.write(outputs);
    }

    @Override
    public void off() {
      note(0);
      pool.off();
    }

    @Override
    public void onFlowEdge(Runnable callback) {
      pool.onFlowEdge(callback);
    }

    @Override
    public void close() {
      pool.close();
    }

    private void note(double level) {
      try {
        String line = System.nanoTime() + " " + level + "\n";
        book.write(line.getBytes(StandardCharsets.US_ASCII));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
