package limnostat.cli.faults;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.Outputs;
import limnostat.control.ControlSettings;
import limnostat.control.Mode;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.WaterTest;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.safety.SafetyLimits;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanSettings.Channel;
import limnostat.scan.ScanState;
import limnostat.water.ChlorineForm;

/**
 * A simulated pool with the daemon's scan once a second, and everything about the scan that can go
 * wrong. Faults are of the pool where it has them, else of what stands between it and the scan.
 */
final class FaultBench {
  static final double SCAN_S = 1;

  /** 2026-07-01 08:00 UTC: a summer's day. */
  private static final double START_UNIX_S = 1_782_892_800;

  private static final double FALLBACK_S = 3600;

  /**
   * A way in which a bench begins.
   *
   * @param output what feeds when the fault comes
   */
  record Setup(Output output, DoseCaps chlorine, DoseCaps acid) {
    private static final DoseCaps CHLORINE_CAPS = new DoseCaps(20, 20, 160, 1);
    private static final DoseCaps ACID_CAPS = new DoseCaps(1500, 200, 600, 10);

    static final Setup CHLORINE = new Setup(Output.CHLORINE, CHLORINE_CAPS, ACID_CAPS);
    static final Setup ACID = new Setup(Output.ACID, CHLORINE_CAPS, ACID_CAPS);

    static Setup chlorine(double hourCapG, double dayCapG) {
      return new Setup(Output.CHLORINE, new DoseCaps(20, hourCapG, dayCapG, 1), ACID_CAPS);
    }

    static Setup acid(double hourCapMl, double dayCapMl) {
      return new Setup(Output.ACID, CHLORINE_CAPS, new DoseCaps(1500, hourCapMl, dayCapMl, 10));
    }

    DoseCaps caps() {
      return output == Output.CHLORINE ? chlorine : acid;
    }
  }

  private final ScanSettings settings;
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
    settings = settings(setup);
    // pH well above the target where acid is to feed.
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
    state = ScanState.start(settings);
    // The pool's cell has no tank.
    overrides.put(Role.TANK_LOW, new Signal.Contact(false));
  }

  private static ScanSettings settings(Setup setup) {
    Set<Role> fitted =
        EnumSet.of(
            Role.ORP_MV,
            Role.PH_MV,
            Role.WATER_C,
            Role.FLOW,
            Role.CELL_A,
            Role.PUMP_ON,
            Role.TANK_LOW,
            Role.ACID_TANK_LOW);
    return new ScanSettings(
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0.05, 3600, 60),
            0,
            new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(-2, 50, 0.2, 0.01, 0, 60),
            25,
            new FlowSensor.Switch(),
            180,
            fitted),
        new EstimateSettings(
            50, 46, 8, SlowSettings.told(30, 3500, ChlorineForm.SALT_CELL, 1), 2, 2),
        new ControlSettings(
            3, 7.4, ZoneOffset.UTC, List.of(), new ControlSettings.PiTuning(0.05, 12 * 3600)),
        new SafetyLimits(800, 5, 10, 6.8, 8.0, 10, 40, 60, 300, FALLBACK_S),
        new Channel(
            new OutputSettings(OutputSettings.Drive.RELAY, 600, 60, 60, 24 * 3600, 300),
            setup.chlorine()),
        new Channel(
            new OutputSettings(OutputSettings.Drive.RELAY, 600, 10, 60, 900, 1800), setup.acid()));
  }

  /** A pool whose output feeds now: chlorine by hand, after a while in auto; acid in its turn. */
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

  /** The pool's own fault, from now on. */
  void breaks(java.util.function.Function<PlantFault.Span, PlantFault> fault, double forS) {
    double now = pool.unixTimeS();
    pool.inject(fault.apply(new PlantFault.Span(now, now + forS)));
  }

  void contact(Role role, boolean closed) {
    overrides.put(role, new Signal.Contact(closed));
  }

  void asks(Command command) {
    commands.add(command);
  }

  void byHand(double duty) {
    asks(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(duty)));
  }

  /** A person's test, mg/L; NaN: not tested. */
  void tested(double freeChlorineMgL, double combinedMgL, double cyanuricAcidMgL) {
    OptionalDouble none = OptionalDouble.empty();
    asks(
        new Command.Test(
            new WaterTest(
                told(freeChlorineMgL),
                told(combinedMgL),
                none,
                none,
                told(cyanuricAcidMgL),
                none,
                none)));
  }

  private static OptionalDouble told(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** No scan for so long; what was on stays on. */
  void stalls(double seconds) {
    extraS = seconds;
  }

  /** The process dies and the next goes on at once. */
  void dies() {
    state = state.resumed(settings);
  }

  /** It dies, and its ledger is lost. */
  void losesTheLedger() {
    state = ScanState.start(settings).accountUnknown(settings).resumed(settings);
  }

  // What it does.

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
