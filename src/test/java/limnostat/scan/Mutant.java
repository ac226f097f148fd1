package limnostat.scan;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import limnostat.account.DoseCaps;
import limnostat.actuate.Modulator;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Interlocks;
import limnostat.safety.MatrixRow;
import limnostat.safety.SafetyLimits;
import limnostat.safety.SetpointLimits;
import limnostat.scan.ScanSettings.Channel;
import limnostat.scan.ScanState.Phase;

/**
 * The program with one protection taken away. Where that is an effect of the matrix, the row itself
 * loses it, by reflection, for as long as the mutant is open; all else is done to what enters or
 * leaves the scan. So the program has no hook for it.
 *
 * @param step made anew for each history
 */
record Mutant(String name, List<Row> rows, Supplier<Step> step) {
  /** One effect of the matrix. */
  record Row(Cause cause, Output output) {
    @Override
    public String toString() {
      return cause.id() + " on " + output.key();
    }
  }

  /** Takes the effects of these rows away. */
  static Mutant without(Row... rows) {
    List<Row> all = List.of(rows);
    String name = String.join(", ", all.stream().map(Row::toString).toList());
    return new Mutant(name, all, () -> Scan::step);
  }

  static List<Row> matrix() {
    List<Row> rows = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      for (Output output : Output.values()) {
        if (cause.on(output) != Effect.NONE) {
          rows.add(new Row(cause, output));
        }
      }
    }
    return rows;
  }

  /** Runs something under the mutant; afterwards the matrix is what it was. */
  <T> T open(Supplier<T> run) {
    List<Effect> were = rows.stream().map(row -> row.cause.on(row.output)).toList();
    try {
      rows.forEach(row -> set(row, Effect.NONE));
      return run.get();
    } finally {
      for (int i = 0; i < were.size(); i++) {
        set(rows.get(i), were.get(i));
      }
    }
  }

  private static void set(Row row, Effect effect) {
    MatrixRow.set(row.cause, row.output, effect);
  }

  /** What is done elsewhere than in the matrix. */
  static List<Mutant> elsewhere() {
    return List.of(
        settings(
            "hour caps",
            s -> caps(s, c -> new DoseCaps(c.ratePerH(), 1e9, c.dayCap(), c.blockAmount()))),
        settings(
            "day caps",
            s -> caps(s, c -> new DoseCaps(c.ratePerH(), c.hourCap(), 1e9, c.blockAmount()))),
        settings("separation", s -> limits(s, 0, s.limits().flowProvingS())),
        settings("proving of flow", s -> limits(s, s.limits().separationS(), 0)),
        settings(
            "least on time",
            s ->
                drives(
                    s,
                    o ->
                        new OutputSettings(
                            o.drive(), o.cycleS(), 0, o.minOffS(), o.longestRunS(), o.restS()))),
        settings(
            "least off time",
            s ->
                drives(
                    s,
                    o ->
                        new OutputSettings(
                            o.drive(), o.cycleS(), o.minOnS(), 0, o.longestRunS(), o.restS()))),
        settings(
            "rest",
            s ->
                drives(
                    s,
                    o ->
                        new OutputSettings(
                            o.drive(), o.cycleS(), o.minOnS(), o.minOffS(), o.longestRunS(), 0))),
        settings(
            "longest run",
            s ->
                drives(
                    s,
                    o ->
                        new OutputSettings(
                            o.drive(), o.cycleS(), o.minOnS(), o.minOffS(), 1e9, o.restS()))),
        settings("blind budget", s -> blindFeed(s, 1e9)),
        inputs("low tests", (state, in) -> withoutLowTests(in)),
        settings(
            "limits on set points",
            s -> with(s, s.limits(), s.chlorine(), s.acid(), SetpointLimits.WIDEST)),
        inputs("booking before giving", (state, in) -> booked(in, 1e12)),
        inputs(
            "counting what was booked before a crash",
            (state, in) -> state.phase() == Phase.RESUMED ? booked(in, 0) : in),
        new Mutant("start and gap", List.of(), () -> Mutant::neverInterrupted),
        new Mutant("latch", List.of(), () -> Mutant::unlatched),
        new Mutant("validity of ORP", List.of(), () -> new LastGood(Role.ORP_MV)),
        new Mutant("validity of pH", List.of(), () -> new LastGood(Role.PH_MV)),
        new Mutant("modulator's and last veto", List.of(), () -> Mutant::deaf));
  }

  private interface Change {
    ScanInputs of(ScanState state, ScanInputs in);
  }

  private static Mutant settings(String name, UnaryOperator<ScanSettings> change) {
    return new Mutant(
        name, List.of(), () -> (s, state, in) -> Scan.step(change.apply(s), state, in));
  }

  private static Mutant inputs(String name, Change change) {
    return new Mutant(
        name, List.of(), () -> (s, state, in) -> Scan.step(s, state, change.of(state, in)));
  }

  private static ScanSettings with(
      ScanSettings s,
      SafetyLimits limits,
      Channel chlorine,
      Channel acid,
      SetpointLimits setpoints) {
    return new ScanSettings(
        s.measure(),
        s.estimate(),
        s.control(),
        limits,
        chlorine,
        acid,
        setpoints,
        s.outOfService());
  }

  /** Nobody hears of a test that reads low. */
  private static ScanInputs withoutLowTests(ScanInputs in) {
    return new ScanInputs(
        in.elapsedS(),
        in.unixTimeS(),
        in.clockTrusted(),
        in.signals(),
        in.booked(),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        in.commands().stream().filter(request -> !low(request.command())).toList());
  }

  private static boolean low(Command command) {
    return command instanceof Command.Test t && t.test().freeChlorineMgL().orElse(9) < 1;
  }

  private static ScanSettings blindFeed(ScanSettings s, double mgL) {
    SafetyLimits l = s.limits();
    return limits(s, l.separationS(), l.flowProvingS(), mgL);
  }

  private static ScanSettings limits(ScanSettings s, double separationS, double provingS) {
    return limits(s, separationS, provingS, s.limits().blindFeedMgL());
  }

  private static ScanSettings limits(
      ScanSettings s, double separationS, double provingS, double blindFeedMgL) {
    SafetyLimits l = s.limits();
    SafetyLimits changed =
        new SafetyLimits(
            l.orpHighMv(),
            l.freeChlorineHighMgL(),
            l.superchlorinationMaxMgL(),
            l.phDosingMin(),
            l.phDosingMax(),
            l.waterMinC(),
            l.waterMaxC(),
            provingS,
            separationS,
            blindFeedMgL,
            l.process(),
            l.run());
    return with(s, changed, s.chlorine(), s.acid(), s.setpoints());
  }

  private static ScanSettings caps(ScanSettings s, UnaryOperator<DoseCaps> change) {
    return with(
        s,
        s.limits(),
        new Channel(s.chlorine().output(), change.apply(s.chlorine().caps())),
        new Channel(s.acid().output(), change.apply(s.acid().caps())),
        s.setpoints());
  }

  private static ScanSettings drives(ScanSettings s, UnaryOperator<OutputSettings> change) {
    return with(
        s,
        s.limits(),
        new Channel(change.apply(s.chlorine().output()), s.chlorine().caps()),
        new Channel(change.apply(s.acid().output()), s.acid().caps()),
        s.setpoints());
  }

  private static ScanInputs booked(ScanInputs in, double amount) {
    return new ScanInputs(
        in.elapsedS(),
        in.unixTimeS(),
        in.clockTrusted(),
        in.signals(),
        Map.of(Output.CHLORINE, amount, Output.ACID, amount),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        in.commands());
  }

  private static ScanOutcome neverInterrupted(ScanSettings s, ScanState state, ScanInputs in) {
    ScanState running =
        new ScanState(
            Phase.RUNNING,
            state.measure(),
            state.estimate(),
            state.control(),
            state.safety(),
            state.chlorine(),
            state.acid(),
            state.alarms(),
            state.sun(),
            state.annunciator(),
            state.totals());
    return Scan.step(s, running, in);
  }

  private static ScanOutcome unlatched(ScanSettings s, ScanState state, ScanInputs in) {
    ScanState free = state;
    for (Cause cause : Cause.values()) {
      if (Interlocks.resettable(free.safety(), cause)) {
        free = free.withSafety(Interlocks.reset(free.safety(), cause));
      }
    }
    return Scan.step(s, free, in);
  }

  /** What the outputs would do if nobody heard of a hold; the state is the sound program's. */
  private static ScanOutcome deaf(ScanSettings s, ScanState state, ScanInputs in) {
    ScanOutcome out = Scan.step(s, state, in);
    double chlorine =
        Modulator.step(
                s.chlorine().output(),
                state.chlorine().modulator(),
                out.demand().chlorineDuty(),
                false,
                in.elapsedS())
            .output();
    return giving(out, new Outputs(chlorine, out.outputs().acid(), out.outputs().pumpRequest()));
  }

  static ScanOutcome giving(ScanOutcome out, Outputs outputs) {
    return new ScanOutcome(
        outputs,
        out.state(),
        out.measured(),
        out.estimate(),
        out.demand(),
        out.permission(),
        out.events(),
        out.details());
  }

  /** A probe whose bad samples are taken for its last good one, for ever. */
  private static final class LastGood implements Step {
    private final Role role;
    private Signal last = new Signal.Missing("never read");

    LastGood(Role role) {
      this.role = role;
    }

    @Override
    public ScanOutcome step(ScanSettings settings, ScanState state, ScanInputs in) {
      Signal now = in.signals().of(role);
      if (now instanceof Signal.Analog a && Math.abs(a.value()) < 1200) {
        last = now;
      }
      Map<Role, Signal> signals = new EnumMap<>(Role.class);
      for (Role each : Role.values()) {
        signals.put(each, in.signals().of(each));
      }
      signals.put(role, last);
      return Scan.step(settings, state, Inputs.withSignals(in, Signals.of(signals)));
    }
  }
}
