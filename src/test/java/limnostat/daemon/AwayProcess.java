package limnostat.daemon;

import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.field.SimulatedField;
import limnostat.ledger.Ledger;
import limnostat.measure.Role;
import limnostat.mqtt.Link;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantFault.Span;
import limnostat.plant.Pool;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.wire.EventDocument;

/**
 * The daemon's own cycle, ledger and link on a simulated pool, in simulated time, with a fault
 * every now and then; when that time is over it goes on sending what waits, until it is killed.
 */
final class AwayProcess {
  private static final double STEP_S = 10;
  private static final double FAULT_EVERY_S = 2 * 3600;
  private static final double FAULT_S = 1200;
  private static final double START_UNIX_S =
      (double) ZonedDateTime.of(2026, 7, 10, 6, 0, 0, 0, ZoneOffset.UTC).toEpochSecond();

  private AwayProcess() {}

  /**
   * Prints each event of an alarm or a day as the journal has it, after {@code =}.
   *
   * @param args configuration; how many such processes there were before; hours to simulate; pause
   *     after each scan, µs
   */
  public static void main(String[] args) throws Exception {
    Configuration configuration = ConfigurationFile.load(Path.of(args[0])).configuration();
    int earlier = Integer.parseInt(args[1]);
    double endS = Double.parseDouble(args[2]) * 3600;
    long pauseNs = Long.parseLong(args[3]) * 1000;
    Clock.Simulated clock = new Clock.Simulated(START_UNIX_S + earlier * 40 * 86_400.0);
    Pool pool = new Pool(FieldFactory.plant(configuration, earlier + 1), clock.unixTimeS());
    try (EventLog log = new EventLog();
        SimulatedField field = new SimulatedField(pool);
        Ledger ledger = Ledger.open(configuration.ledger());
        Link link =
            new Link(
                configuration.mqtt(),
                configuration.siteId(),
                Optional.empty(),
                new LedgerKeeper(ledger))) {
      link.start();
      BootClock boot = new BootClock("away-" + earlier, 0, clock);
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), boot);
      ScanCycle cycle =
          ScanCycle.open(
              configuration,
              new ScanCycle.Surroundings(field, ledger, link, boot, log),
              resume,
              900);
      double faultAtS = FAULT_EVERY_S;
      while (clock.monotonicS() < endS) {
        if (clock.monotonicS() >= faultAtS) {
          faultAtS += FAULT_EVERY_S;
          Span span = new Span(clock.unixTimeS(), clock.unixTimeS() + FAULT_S);
          field.inject(new PlantFault.FlowLost(span));
          field.inject(new PlantFault.Unplugged(Role.ORP_MV, span));
        }
        print(cycle.once(acknowledgements(clock.monotonicS()), false));
        clock.advance(STEP_S);
        LockSupport.parkNanos(pauseNs);
      }
      System.out.println("simulated");
      while (true) {
        LockSupport.parkNanos(1_000_000_000);
      }
    }
  }

  /** A person looks once in five hours. */
  private static List<Command.Request> acknowledgements(double nowS) {
    List<Command.Request> commands = new ArrayList<>();
    if (nowS > 0 && nowS % (5 * 3600) == 0) {
      for (String alarm : List.of("flow_missing", "orp_failure")) {
        commands.add(
            new Command.Request(
                Optional.empty(),
                "acknowledge",
                "test",
                "{\"type\":\"acknowledge\",\"alarm\":\"" + alarm + "\"}",
                new Command.Acknowledge(alarm)));
      }
    }
    return commands;
  }

  private static void print(ScanOutcome outcome) {
    for (ScanEvent event : outcome.events()) {
      if (event instanceof ScanEvent.AlarmChanged || event instanceof ScanEvent.DayEnded) {
        System.out.println("=" + EventDocument.text(event));
      }
    }
  }
}
