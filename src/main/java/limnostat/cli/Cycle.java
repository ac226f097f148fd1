package limnostat.cli;

import java.util.List;
import limnostat.actuate.Outputs;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.ledger.Ledger;
import limnostat.ledger.Moment;
import limnostat.measure.Signals;
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
final class Cycle {
  private final ScanSettings settings;
  private final Field field;
  private final Ledger ledger;
  private final Clock clock;
  private final Boot boot;
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

  Cycle(
      ScanSettings settings,
      Field field,
      Ledger ledger,
      Clock clock,
      Boot boot,
      Resume resume,
      Bookkeeper bookkeeper,
      Announcer announcer,
      EventLog log) {
    this.settings = settings;
    this.field = field;
    this.ledger = ledger;
    this.clock = clock;
    this.boot = boot;
    this.bookkeeper = bookkeeper;
    this.announcer = announcer;
    this.log = log;
    this.state = resume.state();
    this.outageS = resume.outageS();
    this.earlier = resume.changes();
    this.lastS = clock.monotonicS();
  }

  /**
   * @param overran whether the scan before began late or took most of its period
   */
  ScanOutcome once(List<Command.Request> commands, boolean overran) {
    Moment moment = boot.moment(clock);
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
  void close(boolean orderly) {
    off();
    Moment moment = boot.moment(clock);
    ScanState left = orderly ? state.stopped(settings, moment.monotonicS() - lastS) : state;
    bookkeeper.close(left, moment);
  }
}
