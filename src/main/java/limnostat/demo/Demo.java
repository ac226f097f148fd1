package limnostat.demo;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import limnostat.config.Configuration;
import limnostat.daemon.BootClock;
import limnostat.daemon.Clock;
import limnostat.daemon.CommandInbox;
import limnostat.daemon.EventLog;
import limnostat.daemon.FieldFactory;
import limnostat.daemon.LedgerKeeper;
import limnostat.daemon.Resume;
import limnostat.daemon.ScanCycle;
import limnostat.field.SimulatedField;
import limnostat.ledger.Ledger;
import limnostat.ledger.LedgerException;
import limnostat.mqtt.Link;
import limnostat.plant.Pool;
import limnostat.scan.Command;
import limnostat.scan.ScanOutcome;

/**
 * The daemon's own cycle on a simulated pool, in simulated time. It shows the events of a day as a
 * table.
 */
public final class Demo {
  private static final double STEP_S = 10;
  private static final double ROW_S = 900;
  private static final LocalDate FIRST_DAY = LocalDate.of(2026, 7, 10);
  private static final LocalTime START = LocalTime.of(8, 0);

  /**
   * @param speed simulated seconds per second
   */
  public record Pace(double speed, int days) {}

  private final Configuration configuration;
  private final DemoBroker broker;
  private final Pace pace;
  private final Clock.Simulated clock;
  private final Pool pool;
  private final ZoneId zone;
  private final Thread thread = Thread.currentThread();
  private volatile boolean stopping;

  /** Call on the thread that will call {@link #run}. */
  public Demo(Configuration configuration, DemoBroker broker, Pace pace, long seed) {
    this.configuration = configuration;
    this.broker = broker;
    this.pace = pace;
    this.zone = configuration.scan().control().zone();
    double startUnixS = (double) FIRST_DAY.atTime(START).atZone(zone).toEpochSecond();
    this.clock = new Clock.Simulated(startUnixS);
    this.pool = new Pool(FieldFactory.plant(configuration, seed), startUnixS);
  }

  public void run() throws LedgerException {
    DemoTable table = new DemoTable(System.out, zone);
    try (EventLog log = new EventLog(line -> table.log(line.text()));
        SimulatedField field = new SimulatedField(pool);
        Ledger ledger = Ledger.open(configuration.ledger());
        Link link =
            new Link(
                configuration.mqtt(),
                configuration.siteId(),
                Optional.empty(),
                new LedgerKeeper(ledger))) {
      link.start();
      BootClock boot = new BootClock("simulated", 0, clock);
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), boot);
      ScanCycle cycle =
          ScanCycle.open(
              configuration,
              new ScanCycle.Surroundings(field, ledger, link, boot, log),
              resume,
              ROW_S);
      table.head(configuration, broker, pace);
      try {
        live(cycle, field, new CommandInbox(link), table);
      } finally {
        cycle.close(true);
        table.end(configuration.ledger().file(), stopping);
      }
    }
  }

  private void live(ScanCycle cycle, SimulatedField field, CommandInbox inbox, DemoTable table) {
    DemoStory story = new DemoStory(FIRST_DAY, zone);
    double endS = pace.days() * 86_400.0;
    long beganNs = System.nanoTime();
    double nextRowS = 0;
    while (!stopping && clock.monotonicS() <= endS) {
      List<Command.Request> commands = new ArrayList<>(inbox.take());
      for (DemoStory.Scene scene : story.due(clock.unixTimeS())) {
        table.scene(clock.unixTimeS(), scene.text());
        commands.addAll(scene.play(field, pool, clock.unixTimeS()));
      }
      ScanOutcome outcome = cycle.once(commands, false);
      table.scan(outcome, pool.truth(), STEP_S);
      if (clock.monotonicS() >= nextRowS) {
        nextRowS += ROW_S;
        table.row(clock.unixTimeS(), outcome, pool.truth());
      }
      clock.advance(STEP_S);
      keepPace(beganNs);
    }
  }

  private void keepPace(long beganNs) {
    long dueNs = beganNs + (long) (clock.monotonicS() / pace.speed() * 1e9);
    for (long leftNs = dueNs - System.nanoTime();
        leftNs > 0 && !stopping;
        leftNs = dueNs - System.nanoTime()) {
      LockSupport.parkNanos(this, leftNs);
    }
  }

  /** From any thread. */
  public void stop() {
    stopping = true;
    LockSupport.unpark(thread);
  }
}
