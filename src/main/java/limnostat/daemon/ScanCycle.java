package limnostat.daemon;

import java.util.List;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.ledger.Ledger;
import limnostat.ledger.Moment;
import limnostat.measure.Signals;
import limnostat.mqtt.Link;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;

/**
 * One scan with everything around it: reads the field, steps, drives the outputs, hands over to
 * ledger, link and log. The daemon calls it by the clock, the demo as fast as it likes. Owned by
 * one thread.
 */
public final class ScanCycle {
  private final ScanSettings settings;
  private final Field field;
  private final Ledger ledger;
  private final BootClock clock;
  private final Bookkeeper bookkeeper;
  private final Announcer announcer;
  private final EventLog log;
  private ScanState state;
  private double lastS;
  private double outageS;
  private List<ScanEvent> earlier;
  private boolean driven = true;
  private boolean beating = true;
  private volatile boolean ended;

  /** What a cycle stands between; each is the caller's to close. */
  public record Surroundings(
      Field field, Ledger ledger, Link link, BootClock clock, EventLog log) {}

  private ScanCycle(
      Configuration configuration, Surroundings around, Resume resume, double announceEveryS) {
    this.settings = configuration.scan();
    this.field = around.field();
    this.ledger = around.ledger();
    this.clock = around.clock();
    this.log = around.log();
    this.bookkeeper =
        new Bookkeeper(ledger, configuration.ledger().readingsEveryS(), resume.state());
    this.announcer = new Announcer(around.link(), announceEveryS, resume.state(), clock.moment());
    this.state = resume.state();
    this.outageS = resume.outageS();
    this.earlier = resume.changes();
    this.lastS = clock.clock().monotonicS();
  }

  /**
   * The one way to wire a cycle.
   *
   * @param announceEveryS the state is announced this often, s
   */
  public static ScanCycle open(
      Configuration configuration, Surroundings around, Resume resume, double announceEveryS) {
    return new ScanCycle(configuration, around, resume, announceEveryS);
  }

  static ScanCycle open(Configuration configuration, Surroundings around, Resume resume) {
    return open(configuration, around, resume, Announcer.STATE_EVERY_S);
  }

  /** From now on what is announced goes there too. */
  void follow(Announcer.Follower follower) {
    announcer.follow(follower);
  }

  /**
   * @param overran whether the scan before began late or took most of its period
   */
  public ScanOutcome once(List<Command.Request> commands, boolean overran) {
    Moment moment = clock.moment();
    Signals signals = field.read(moment.monotonicS(), moment.unixTimeS());
    ScanOutcome stepped =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                outageS + moment.monotonicS() - lastS,
                moment.unixTimeS(),
                moment.clockTrusted(),
                signals,
                ledger.booked().cumulativeAmounts(),
                ledger.health().failingSinceS().isPresent(),
                overran,
                driven,
                commands));
    drive(stepped.outputs());
    ScanOutcome outcome = earlier.isEmpty() ? stepped : stepped.after(earlier);
    earlier = List.of();
    state = outcome.state();
    lastS = moment.monotonicS();
    outageS = 0;
    ledger.together(
        () -> {
          bookkeeper.keep(outcome, moment);
          announcer.announce(outcome, moment);
        });
    outcome.events().forEach(log::log);
    log.inputs(signals, settings.measure().fitted());
    return outcome;
  }

  private void drive(Outputs outputs) {
    try {
      field.write(ended ? Outputs.OFF : outputs);
      driven = true;
      if (ended) {
        field.off(); // it may have come between
      }
    } catch (FieldException e) {
      field.off();
      if (driven) {
        log.warn("outputs cannot be driven: " + e.getMessage());
      }
      driven = false;
    }
  }

  /** The heartbeat output changes its level; where it cannot, the relay that watches it trips. */
  void beat() {
    try {
      field.beat();
      beating = true;
    } catch (FieldException e) {
      if (beating) {
        log.warn("no heartbeat: " + e.getMessage());
      }
      beating = false;
    }
  }

  /** Outputs off for good, from any thread: a scan that is under way turns nothing on again. */
  void off() {
    ended = true;
    field.off();
  }

  /** Whether the outputs of the last scan were driven and, as far as a field can, read back. */
  boolean driven() {
    return driven;
  }

  /** What the next scan would begin with. The scan thread's. */
  ScanState state() {
    return state;
  }

  /** Outputs off; then the state, marked as that of an orderly stop, goes to the ledger. */
  public void close(boolean orderly) {
    off();
    Moment moment = clock.moment();
    ScanState left = orderly ? state.stopped(settings, moment.monotonicS() - lastS) : state;
    bookkeeper.close(left, moment);
  }
}
