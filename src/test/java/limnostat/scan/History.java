package limnostat.scan;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limnostat.actuate.Outputs;
import limnostat.safety.Cause;
import limnostat.wire.SavedState;

/**
 * A generated history of one installation: scans at irregular times, gaps, crashes and orderly
 * stops, with what the outputs physically do. All of it follows from the seed, and from which of
 * its events may happen.
 */
final class History {
  /** The guard outside the scan has the outputs off by then, s; the account counts on it. */
  private static final double GUARD_S = 60;

  static final double START_UNIX_S = 1_780_000_000;

  private static final double[] PERIODS_S = {2, 10, 30, 60};
  private static final double[] EAGERNESS = {0.1, 0.5, 1, 1, 2};

  private record Saved(ScanState state, double atS) {}

  private final Chance chance;
  private final Step step;
  private final ScanSettings settings;
  private final SignalSource signals;
  private final CommandSource commands;
  private final ModelLedger ledger;
  private final double periodS;
  private final Turn clockLost = new Turn("clock not trusted", 600, 60);
  private final Turn late = new Turn("scans late", 2000, 60);
  private Saved saved;
  private ScanState state;
  private int scans;
  private double atS;
  private Outputs commanded = Outputs.OFF;
  private boolean driven = true;
  private double wallOffsetS = START_UNIX_S;
  private Seen.Start start = Seen.Start.FIRST;

  History(long seed) {
    this(seed, Optional.empty(), Scan::step);
  }

  History(long seed, Optional<Set<Chance.Event>> only, Step step) {
    this.step = step;
    chance = new Chance(seed, only);
    settings = Installations.any(chance);
    signals = new SignalSource(settings, chance);
    commands = new CommandSource(chance);
    ledger = new ModelLedger(chance);
    boolean orpDead = chance.nextInt(6) == 0;
    // To feed in vain takes hours in which little else happens.
    periodS = orpDead ? 60 : PERIODS_S[chance.nextInt(PERIODS_S.length)];
    chance.eager(orpDead ? 0.05 : EAGERNESS[chance.nextInt(EAGERNESS.length)]);
    if (orpDead) {
      signals.orpDead();
      commands.feedByHand();
    }
    state = ScanState.start(settings);
    saved = new Saved(state, 0);
  }

  ScanSettings settings() {
    return settings;
  }

  List<Chance.Event> events() {
    return chance.happened();
  }

  /** Makes the next scan. */
  Seen next() throws IOException {
    chance.begin(scans++);
    double lastS = atS;
    double elapsedS = pass();
    double untilS = lastS + Math.min(GUARD_S, elapsedS);
    boolean running = start == Seen.Start.RUNNING;
    if (running && chance.event("process killed", 1 / 600.0)) {
      elapsedS = restart(untilS, false);
    } else if (running && chance.event("process stopped", 1 / 1200.0)) {
      elapsedS = restart(untilS, true);
    } else {
      atS = lastS + elapsedS;
      if (running && elapsedS > 60) {
        start = Seen.Start.GAP;
      }
    }
    if (chance.event("clock jumps", 1 / 300.0)) {
      wallOffsetS += chance.nextGaussian() * (chance.nextBoolean() ? 1e4 : 1e8);
    }
    Outputs gave = driven ? commanded : Outputs.OFF;
    boolean cell = gave.chlorine() > 0 && untilS >= atS;
    ScanInputs in =
        new ScanInputs(
            elapsedS,
            atS + wallOffsetS,
            !clockLost.next(chance),
            signals.next(elapsedS, cell),
            ledger.booked(),
            ledger.failing(),
            late.next(chance),
            driven,
            commands.next(state.safety().active().stream().filter(Cause::latching).findFirst()));
    ScanOutcome out = step.step(settings, state, in);
    Seen seen = new Seen(settings, start, atS, lastS, gave, untilS, state, in, out);
    took(out);
    return seen;
  }

  private void took(ScanOutcome out) {
    state = out.state();
    commanded = out.outputs();
    // As the daemon: with a process's first scan, what must last, and every five minutes.
    boolean first = start.newProcess();
    driven = !chance.event("output not driven", 0.001);
    start = Seen.Start.RUNNING;
    ledger.scanned(state);
    boolean lasting =
        out.events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.Accepted
                        || (e instanceof ScanEvent.Tripped t && t.cause().latching()));
    if (first || lasting || atS - saved.atS >= 300) {
      saved = new Saved(state, atS);
    }
  }

  private double pass() {
    return chance.event("gap", 1 / 300.0)
        ? 60 + StrictMath.exp(Installations.between(chance, 0, 11))
        : Installations.between(chance, 0.1, periodS);
  }

  /** A new process; what it is told has passed is never more than has. */
  private double restart(double untilS, boolean orderly) throws IOException {
    if (orderly) {
      saved = new Saved(state.stopped(settings, untilS - atS), untilS);
    }
    ledger.died();
    // Seconds, hours, and now and then a winter.
    double longestS =
        new double[] {5, 5, 40_000, chance.nextInt(10) == 0 ? 2e7 : 40_000}[chance.nextInt(4)];
    double offS = longestS * chance.nextDouble();
    atS = untilS + offS;
    boolean damaged = chance.event("ledger damaged", 0.03);
    if (damaged || chance.event("state lost", 0.03)) {
      ScanState fresh = ScanState.start(settings);
      state = (damaged ? fresh.accountUnknown(settings) : fresh).resumed(settings);
      saved = new Saved(state, atS);
      start = Seen.Start.FORGOTTEN;
      return 0;
    }
    state = SavedState.read(SavedState.write(saved.state)).resumed(settings);
    start = Seen.Start.RESUMED;
    double passedS = atS - saved.atS;
    return switch (chance.nextInt(3)) {
      case 0 -> 0;
      case 1 -> chance.nextDouble() * passedS;
      default -> passedS;
    };
  }
}
