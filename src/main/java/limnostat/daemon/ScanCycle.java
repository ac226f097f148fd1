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
 * One complete scan: reads the field, steps the control, drives the outputs, and passes the results
 * to ledger, link and log. The daemon calls it by the clock, the demo as fast as it likes. Owned by
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

  /** What a cycle works with. The caller closes each of them. */
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
   * The only way to wire a cycle.
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

  /** Announcements also go to this follower from now on. */
  void follow(Announcer.Follower follower) {
    announcer.follow(follower);
  }

  /**
   * @param overran whether the previous scan began late or took most of its period
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
        field.off(); // off may have been called meanwhile
      }
    } catch (FieldException e) {
      field.off();
      if (driven) {
        log.warn("outputs cannot be driven: " + e.getMessage());
      }
      driven = false;
    }
  }

  /** Toggles the heartbeat output. If it cannot, the relay that watches it trips. */
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

  /** Outputs off for good, from any thread: a scan in progress turns nothing on again. */
  void off() {
    ended = true;
    field.off();
  }

  /** Whether the last scan's outputs were driven and, as far as the field can, read back. */
  boolean driven() {
    return driven;
  }

  /** The state from which the next scan would start. For the scan thread only. */
  ScanState state() {
    return state;
  }

  /**
   * Switches the outputs off; then saves the state to the ledger, marked if the stop was orderly.
   */
  public void close(boolean orderly) {
    off();
    Moment moment = clock.moment();
    ScanState left = orderly ? state.stopped(settings, moment.monotonicS() - lastS) : state;
    bookkeeper.close(left, moment);
  }
}
