package limnostat.faults;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.control.Mode;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.faults.Setup.Configured;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;

/**
 * A simulated pool with the daemon's scan once a second, and every input of the scan that can go
 * wrong. If the pool has a fault, the fault is made in the pool; otherwise it is made between the
 * pool and the scan.
 */
final class FaultBench {
  static final double SCAN_S = 1;

  /** 2026-07-01 08:00 UTC: a summer day. */
  static final double START_UNIX_S = 1_782_892_800;

  private final Setup setup;
  private ScanSettings settings;
  private final Pool pool;
  private final Map<Role, Signal> overrides = new EnumMap<>(Role.class);
  private final List<Command> commands = new ArrayList<>();
  private final Commanded commanded = new Commanded();
  private ScanState state;
  private ScanOutcome out;
  private Map<Output, Double> booked = Map.of();
  private double extraS;
  boolean ledgerStands;
  boolean ledgerFailing;
  boolean overran;
  boolean outputsDriven = true;
  boolean clockTrusted = true;

  private FaultBench(Setup setup) {
    this.setup = setup;
    settings = setup.settings();
    // pH well above the target if acid is to be fed.
    PlantSettings.Basin home = PlantSettings.domestic(1).basin();
    pool =
        new Pool(
            PlantSettings.domestic(1)
                .withBasin(
                    new PlantSettings.Basin(
                        home.volumeM3(),
                        home.depthM(),
                        1,
                        setup.output() == Output.ACID ? 7.8 : 7.4,
                        home.totalAlkalinityMgL(),
                        home.cyanuricAcidMgL(),
                        home.saltMgL(),
                        OptionalDouble.of(25)))
                .withFitted(settings.measure().fitted(), false),
            START_UNIX_S);
    state = ScanState.start(settings).configuredBy(setup.configured().options());
    // The pool simulates neither: its cell has no tank.
    contact(Role.TANK_LOW, false);
    contact(Role.COVER_CLOSED, false);
  }

  /**
   * A pool whose output is feeding: chlorine in manual mode, after some time in auto; acid when its
   * turn comes.
   */
  static FaultBench feeding(Setup setup) {
    FaultBench bench = new FaultBench(setup);
    bench.scan(600);
    if (setup.output() == Output.CHLORINE) {
      bench.byHand(1);
    }
    for (int i = 0; i < 4 * 3600 && bench.outputs().of(setup.output()) == 0; i++) {
      bench.scan(1);
    }
    if (bench.outputs().of(setup.output()) == 0) {
      throw new IllegalStateException(setup.output().key() + " does not feed: " + bench.out);
    }
    return bench;
  }

  // What goes wrong.

  /** A fault of the pool itself, from now on. */
  void breaks(java.util.function.Function<PlantFault.Span, PlantFault> fault, double forS) {
    double now = pool.unixTimeS();
    pool.inject(fault.apply(new PlantFault.Span(now, now + forS)));
  }

  void contact(Role role, boolean closed) {
    overrides.put(role, new Signal.Contact(closed));
  }

  /** Removes whatever stood between the pool and the scan. */
  void freed(Role role) {
    overrides.remove(role);
  }

  void asks(Command command) {
    commands.add(command);
  }

  void byHand(double duty) {
    asks(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(duty)));
  }

  /** A person's test results, mg/L; NaN: not tested. */
  void tested(double freeChlorineMgL, double combinedMgL, double cyanuricAcidMgL) {
    tested(freeChlorineMgL, combinedMgL, Double.NaN, cyanuricAcidMgL);
  }

  /** A person tests the pH of the pool with an accurate kit. */
  void testedPh() {
    tested(Double.NaN, Double.NaN, pool.truth().ph(), Double.NaN);
  }

  private void tested(double freeMgL, double combinedMgL, double ph, double cyanuricAcidMgL) {
    asks(
        new Command.Test(
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, entered(freeMgL))
                .with(Tested.COMBINED_CHLORINE, entered(combinedMgL))
                .with(Tested.PH, entered(ph))
                .with(Tested.CYANURIC_ACID, entered(cyanuricAcidMgL))));
  }

  private static OptionalDouble entered(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** No scan for this time; what was on stays on. */
  void stalls(double seconds) {
    extraS = seconds;
  }

  /** The process dies and the next one starts at once. */
  void dies() {
    state = state.resumed(settings);
  }

  /** A person changes the file and restarts the program. */
  void restarts(UnaryOperator<Configured> changed) {
    Configured configured = changed.apply(setup.configured());
    settings = setup.with(configured).settings();
    state = state.stopped().resumed(settings).configuredBy(configured.options());
  }

  /** The process dies, and its ledger is lost. */
  void losesTheLedger() {
    state = ScanState.start(settings).accountUnknown(settings).resumed(settings);
  }

  // What the bench does.

  void scan(int times) {
    for (int i = 0; i < times; i++) {
      scan();
    }
  }

  private void scan() {
    double elapsedS = SCAN_S + extraS;
    extraS = 0;
    pool.advance(pool.unixTimeS() + elapsedS, outputs());
    commanded.passed(outputs(), settings, elapsedS);
    out =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                elapsedS,
                pool.unixTimeS(),
                clockTrusted,
                signals(),
                booked,
                ledgerFailing,
                overran,
                outputsDriven,
                commands.stream().map(FaultBench::request).toList()));
    commands.clear();
    state = out.state();
    if (!ledgerStands) {
      booked =
          Map.of(
              Output.CHLORINE, state.chlorine().account().requested(),
              Output.ACID, state.acid().account().requested());
    }
  }

  private Signals signals() {
    Map<Role, Signal> seen = new EnumMap<>(Role.class);
    for (Role role : settings.measure().fitted()) {
      seen.put(role, overrides.getOrDefault(role, pool.signals().of(role)));
    }
    return Signals.of(seen);
  }

  private static Command.Request request(Command command) {
    return new Command.Request(Optional.empty(), "any", "faults", "{}", command);
  }

  Outputs outputs() {
    return out == null ? Outputs.OFF : out.outputs();
  }

  ScanOutcome out() {
    return out;
  }

  Commanded commanded() {
    return commanded;
  }

  double unixTimeS() {
    return pool.unixTimeS();
  }
}
