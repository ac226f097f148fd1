package limnostat.scan;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Random;
import limnostat.actuate.Outputs;
import limnostat.safety.Cause;
import limnostat.wire.SavedState;

/**
 * A generated history of one installation: scans at irregular times, gaps, crashes and orderly
 * stops, with what the outputs physically do. All of it follows from the seed.
 */
final class History {
  /** The guard outside the scan has the outputs off by then, s; the account counts on it. */
  private boolean clockTrusted = true;

  private static final double GUARD_S = 60;

  static final double START_UNIX_S = 1_780_000_000;

  private record Saved(ScanState state, double atS) {}

  private final Random random;
  private final ScanSettings settings;
  private final SignalSource signals;
  private final CommandSource commands;
  private final ModelLedger ledger;
  private final double periodS;
  private final Deque<Saved> saved = new ArrayDeque<>();
  private ScanState state;
  private double atS;
  private Outputs commanded = Outputs.OFF;
  private boolean driven = true;
  private boolean overran;
  private double wallOffsetS = START_UNIX_S;
  private Seen.Start start = Seen.Start.FIRST;

  History(long seed) {
    random = new Random(seed);
    settings = Installations.any(random);
    signals = new SignalSource(settings, random);
    commands = new CommandSource(random);
    ledger = new ModelLedger(random);
    periodS = new double[] {2, 10, 30, 60}[random.nextInt(4)];
    state = ScanState.start(settings);
  }

  ScanSettings settings() {
    return settings;
  }

  /** Makes the next scan. */
  Seen next() throws IOException {
    double lastS = atS;
    double elapsedS = pass();
    double untilS = lastS + Math.min(GUARD_S, elapsedS);
    if (start == Seen.Start.RUNNING && random.nextInt(400) == 0) {
      elapsedS = restart(untilS);
    } else {
      atS = lastS + elapsedS;
      if (start == Seen.Start.RUNNING && elapsedS > 60) {
        start = Seen.Start.GAP;
      }
    }
    if (random.nextInt(300) == 0) {
      wallOffsetS += random.nextGaussian() * (random.nextBoolean() ? 1e4 : 1e8);
    }
    Outputs gave = driven ? commanded : Outputs.OFF;
    boolean cell = gave.chlorine() > 0 && untilS >= atS;
    clockTrusted = clockTrusted ? random.nextInt(600) > 0 : random.nextInt(60) == 0;
    overran = random.nextInt(overran ? 60 : 2000) == 0 != overran;
    ScanInputs in =
        new ScanInputs(
            elapsedS,
            atS + wallOffsetS,
            clockTrusted,
            signals.next(elapsedS, cell),
            ledger.booked(),
            ledger.failing(),
            overran,
            driven,
            commands.next(state.safety().active().stream().filter(Cause::latching).findFirst()));
    ScanOutcome out = Scan.step(settings, state, in);
    Seen seen = new Seen(settings, start, atS, lastS, gave, untilS, state, in, out);
    took(out);
    return seen;
  }

  private void took(ScanOutcome out) {
    state = out.state();
    commanded = out.outputs();
    driven = random.nextInt(1000) > 0;
    start = Seen.Start.RUNNING;
    ledger.scanned(state);
    boolean lasting =
        out.events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.Accepted
                        || (e instanceof ScanEvent.Tripped t && t.cause().latching()));
    if (lasting || saved.isEmpty() || atS - saved.getLast().atS >= 300) {
      saved.add(new Saved(state, atS));
    }
  }

  private double pass() {
    return random.nextInt(300) == 0
        ? 60 + StrictMath.exp(Installations.between(random, 0, 11))
        : Installations.between(random, 0.1, periodS);
  }

  /** A new process; what it is told has passed is never more than has. */
  private double restart(double untilS) throws IOException {
    boolean orderly = random.nextInt(3) == 0;
    if (orderly) {
      saved.add(new Saved(state.stopped(), untilS));
    }
    ledger.died();
    // Seconds, hours, and now and then a winter.
    double longestS =
        new double[] {5, 5, 40_000, random.nextInt(10) == 0 ? 2e7 : 40_000}[random.nextInt(4)];
    double offS = longestS * random.nextDouble();
    atS = untilS + offS;
    int lost = random.nextInt(30);
    if (lost < 2) {
      ScanState fresh = ScanState.start(settings);
      state = (lost == 0 ? fresh.accountUnknown(settings) : fresh).resumed(settings);
      saved.clear();
      start = Seen.Start.FORGOTTEN;
      return 0;
    }
    Saved newest = saved.getLast();
    state = SavedState.read(SavedState.write(newest.state)).resumed(settings);
    start = Seen.Start.RESUMED;
    double passedS = atS - newest.atS;
    return switch (random.nextInt(3)) {
      case 0 -> 0;
      case 1 -> random.nextDouble() * passedS;
      default -> passedS;
    };
  }
}
