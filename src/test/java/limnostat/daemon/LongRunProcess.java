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
import limnostat.measure.Signals;
import limnostat.mqtt.Password;
import limnostat.plant.Pool;

/**
 * The daemon as {@code run} has it, by {@link HurriedClock} and on a pool whose feeder keeps a book
 * of its own: for {@code long_run.py}.
 */
final class LongRunProcess {
  private LongRunProcess() {}

  /**
   * @param args configuration, and the feeder's book
   */
  public static void main(String[] args) throws Exception {
    ConfigurationFile file = ConfigurationFile.load(Path.of(args[0]));
    Configuration configuration = file.configuration();
    BootClock clock = HurriedClock.ofBoot();
    CountDownLatch closed = new CountDownLatch(1);
    Thread.currentThread().setName("scan");
    try (EventLog log = new EventLog();
        OutputStream book = new FileOutputStream(args[1], true);
        Field field =
            new Feeder(
                new SimulatedField(
                    new Pool(FieldFactory.plant(configuration, 1), clock.clock().unixTimeS())),
                book);
        LedgerOpening opening = new LedgerOpening(configuration.ledger())) {
      Service service =
          new Service(
              file,
              clock,
              field,
              Password.fixed(Optional.empty()),
              opening,
              ServiceNotifier.fromEnvironment(),
              log);
      Runtime.getRuntime()
          .addShutdownHook(
              new Thread(
                  () -> {
                    service.stop();
                    await(closed);
                  },
                  "stop"));
      service.run();
    } finally {
      closed.countDown();
    }
  }

  private static void await(CountDownLatch closed) {
    try {
      if (!closed.await(15, TimeUnit.SECONDS)) {
        System.err.println("not everything closed within 15 s");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Writes down each level at the moment at which it begins. */
  private static final class Feeder implements Field {
    private final SimulatedField pool;
    private final OutputStream book;
    private double level = -1;

    Feeder(SimulatedField pool, OutputStream book) {
      this.pool = pool;
      this.book = book;
    }

    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      return pool.read(monotonicS, unixTimeS);
    }

    @Override
    public void write(Outputs outputs) {
      note(outputs.chlorine());
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

    private synchronized void note(double next) {
      if (next == level) {
        return;
      }
      level = next;
      try {
        String line = System.nanoTime() + " " + next + "\n";
        book.write(line.getBytes(StandardCharsets.US_ASCII));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
