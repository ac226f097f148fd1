package limnostat.scan;

import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.control.Mode;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.ProcessLimits;
import limnostat.safety.RunLimits;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings.Channel;
import limnostat.wire.SavedState;

/**
 * A pool in which one output feeds and all is well, with everything that a test may put wrong. The
 * outputs are proportional, so that what an interlock takes shows on the same scan.
 */
final class Situation {
  static final double SCAN_S = 10;

  /**
   * Times in which the outputs are held, s, and the blind budget, mg/L; without them what else
   * holds shows alone.
   */
  record Times(double flowProvingS, double freshWaterS, double separationS, double blindFeedMgL) {
    static final Times USUAL = new Times(60, 60, 300);

    Times(double flowProvingS, double freshWaterS, double separationS) {
      this(flowProvingS, freshWaterS, separationS, 5);
    }
  }

  final Map<Role, Signal> signals = new EnumMap<>(Role.class);
  final List<Command> commands = new ArrayList<>();
  double elapsedS = SCAN_S;
  double unixTimeS = 1_780_000_000;
  boolean clockTrusted = true;
  boolean ledgerFailing;
  boolean overran;
  boolean outputsDriven = true;
  boolean ledgerStands;
  boolean cellStuck;
  boolean cellDead;
  ScanOutcome out;

  double cellA = 5;

  /** How far ORP swings to either side within three hours, mV. */
  double swingMv;

  /** How fast ORP falls, mV an hour. */
  double fallsMvH;

  private double fallenMv;
  private final ScanSettings settings;
  private final Random noise = new Random(1);
  private Map<Output, Double> booked = Map.of();
  private ScanState state;

  private Situation(Times times, DoseCaps chlorine, DoseCaps acid) {
    this(times, chlorine, acid, 1e6, List.of());
  }

  private Situation(
      Times times,
      DoseCaps chlorine,
      DoseCaps acid,
      double longestRunS,
      List<PumpWindow> pumpWindows) {
    ScanSettings pool = TestSettings.pool();
    MeasureSettings m = pool.measure();
    OutputSettings drive = new OutputSettings(Drive.PROPORTIONAL, 600, 0, 0, longestRunS, 120);
    ControlSettings control = pool.control();
    settings =
        new ScanSettings(
            new MeasureSettings(
                m.orp(),
                0,
                m.ph(),
                m.phCalibration(),
                m.water(),
                25,
                new FlowSensor.Switch(),
                times.freshWaterS,
                fitted(pumpWindows.isEmpty()),
                CalibrationAge.NOT_TOLD,
                new CalibrationAge(OptionalDouble.of(unixTimeS), 90 * 86_400),
                PumpSign.CONTACT),
            pool.estimate(),
            new ControlSettings(3, 7.4, control.zone(), pumpWindows),
            new SafetyLimits(
                800,
                5,
                10,
                6.8,
                8.0,
                10,
                40,
                times.flowProvingS,
                times.separationS,
                times.blindFeedMgL,
                new ProcessLimits(4, OptionalDouble.of(9), OptionalDouble.of(6), 5 * 86_400),
                RunLimits.USUAL),
            new Channel(drive, chlorine),
            new Channel(drive, acid));
    state = ScanState.start(settings);
    contact(Role.FLOW, true);
    contact(Role.PUMP_ON, true);
    contact(Role.TANK_LOW, false);
    contact(Role.ACID_TANK_LOW, false);
    contact(Role.COVER_CLOSED, false);
    analog(Role.ORP_MV, 650);
    ph(7.4);
    analog(Role.WATER_C, 25);
  }

  /**
   * Where the pump rests its contact is not fitted, or that would hold what flow alone does not.
   */
  private static Set<Role> fitted(boolean pumpContact) {
    EnumSet<Role> fitted =
        EnumSet.of(Role.CELL_A, Role.TANK_LOW, Role.ACID_TANK_LOW, Role.COVER_CLOSED);
    if (pumpContact) {
      fitted.add(Role.PUMP_ON);
    }
    return fitted;
  }

  /** Chlorine on at 0.9 by a person's choice, after a while in auto. */
  static Situation chlorineFeeding(Times times, DoseCaps chlorine) {
    return chlorineFeeding(new Situation(times, chlorine, TestSettings.pool().acid().caps()));
  }

  /** The same with outputs that rest for two minutes after so long. */
  static Situation chlorineFeeding(double longestRunS) {
    ScanSettings pool = TestSettings.pool();
    return chlorineFeeding(
        new Situation(
            Times.USUAL, pool.chlorine().caps(), pool.acid().caps(), longestRunS, List.of()));
  }

  /** The same with a pump that is wanted for less than an hour from now on. */
  static Situation chlorineFeedingUntilThePumpRests() {
    ScanSettings pool = TestSettings.pool();
    return chlorineFeeding(
        new Situation(
            Times.USUAL,
            pool.chlorine().caps(),
            pool.acid().caps(),
            1e6,
            List.of(new PumpWindow(0, 21 * 3600)))); // it is 20:26 h
  }

  private static Situation chlorineFeeding(Situation s) {
    s.scan(60);
    s.commands.add(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.9)));
    s.scan(1);
    return s;
  }

  /** Acid on, in its turn. */
  static Situation acidFeeding(Times times, DoseCaps acid) {
    return acidFeeding(new Situation(times, TestSettings.pool().chlorine().caps(), acid));
  }

  static Situation acidFeeding(double longestRunS) {
    ScanSettings pool = TestSettings.pool();
    return acidFeeding(
        new Situation(
            Times.USUAL, pool.chlorine().caps(), pool.acid().caps(), longestRunS, List.of()));
  }

  /** The same, half an hour after pH has jumped. */
  static Situation acidFeedingAfterAJump() {
    ScanSettings pool = TestSettings.pool();
    Situation s = new Situation(Times.USUAL, pool.chlorine().caps(), pool.acid().caps());
    s.scan(590);
    return acidFeeding(s, 7.9);
  }

  private static Situation acidFeeding(Situation s) {
    return acidFeeding(s, 7.8);
  }

  private static Situation acidFeeding(Situation s, double ph) {
    s.ph(ph);
    for (int i = 0; i < 2000 && (s.out == null || s.out.outputs().acid() == 0); i++) {
      s.scan(1);
    }
    return s;
  }

  void contact(Role role, boolean closed) {
    signals.put(role, new Signal.Contact(closed));
  }

  void analog(Role role, double value) {
    signals.put(role, new Signal.Analog(value));
  }

  void ph(double ph) {
    analog(Role.PH_MV, (7 - ph) * 58.2);
  }

  void missing(Role role) {
    signals.put(role, new Signal.Missing("unplugged"));
  }

  /** Another process, on what the ledger kept, with these options. */
  void restart(Map<String, String> options) {
    state = state.resumed(settings).configuredBy(options);
  }

  ScanState saved() throws IOException {
    return SavedState.read(SavedState.write(state));
  }

  void resume(ScanState saved) {
    state = saved.resumed(settings);
  }

  void scan(int times) {
    for (int i = 0; i < times; i++) {
      scan();
    }
  }

  private void scan() {
    unixTimeS += elapsedS;
    boolean current = cellStuck || (state.chlorine().modulator().on() && !cellDead);
    analog(Role.CELL_A, current ? cellA : 0);
    ScanInputs in =
        new ScanInputs(
            elapsedS,
            unixTimeS,
            clockTrusted,
            noisy(),
            booked,
            ledgerFailing,
            overran,
            outputsDriven,
            commands.stream().map(c -> CommandSource.request(c)).toList());
    commands.clear();
    elapsedS = SCAN_S;
    out = Scan.step(settings, state, in);
    state = out.state();
    if (!ledgerStands) {
      booked =
          Map.of(
              Output.CHLORINE, state.chlorine().account().requested(),
              Output.ACID, state.acid().account().requested());
    }
  }

  /** The process dies, and the next goes on from the state that was saved. */
  void dies() {
    state = state.resumed(settings);
  }

  /** The process is asked to stop, and the next goes on. */
  void isRestarted() {
    state = state.stopped().resumed(settings);
  }

  /** The next process finds a ledger that it cannot read, when all windows have passed. */
  void losesTheLedger() {
    state = state.withSafety(state.safety().withRun(state.safety().run().accountUnknown()));
  }

  private Signals noisy() {
    Map<Role, Signal> noisy = new EnumMap<>(signals);
    fallenMv += fallsMvH * SCAN_S / 3600;
    for (Role role : List.of(Role.ORP_MV, Role.PH_MV, Role.WATER_C)) {
      if (signals.get(role) instanceof Signal.Analog a) {
        double swing =
            role == Role.ORP_MV
                ? swingMv * StrictMath.sin(unixTimeS * StrictMath.PI / 5400) - fallenMv
                : 0;
        noisy.put(role, new Signal.Analog(a.value() + swing + 0.1 * noise.nextDouble()));
      }
    }
    return Signals.of(noisy);
  }
}
