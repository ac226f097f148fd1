package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseTotals;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.alarm.Alarms;
import limnostat.control.Control;
import limnostat.control.ControlLevel;
import limnostat.control.ControlState;
import limnostat.control.DutyRequest;
import limnostat.control.Mode;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.SunOnWater;
import limnostat.estimate.TestLog;
import limnostat.measure.Measure;
import limnostat.measure.MeasureSettings;
import limnostat.measure.MeasureState;
import limnostat.measure.Measurements;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.HardBounds;
import limnostat.safety.Interlocks;
import limnostat.safety.Interlocks.Permission;
import limnostat.safety.Observed;
import limnostat.safety.ProcessWatch;
import limnostat.scan.ScanSettings.Channel;
import limnostat.scan.ScanState.Phase;

/**
 * The scan cycle (IEC 61131): the one place that knows the order of the stages. Pure and
 * deterministic.
 */
public final class Scan {
  private Scan() {}

  /** One scan: from signals to outputs, and the state for the next. */
  public static ScanOutcome step(ScanSettings settings, ScanState saved, ScanInputs in) {
    double dtS = in.elapsedS();
    boolean interrupted = saved.phase() != Phase.RUNNING || dtS > HardBounds.SCAN_GAP_S;
    Commands.Result commanded =
        Commands.apply(
            settings,
            ManualEnd.passed(saved.checkPassed(dtS), dtS).additionsPassed(dtS),
            in.commands(),
            new Now(in.unixTimeS(), in.clockTrusted()));
    ScanState s = commanded.state();

    boolean checking = s.safety().watched().checking();
    Calibrations calibrations = s.asked().calibrations().step(in.signals(), checking, dtS);
    MeasureSettings measure = calibrations.on(settings.measure());
    // Nothing that the probes see in a function check is remembered, and flow must be proven again.
    MeasureState remembered =
        checking
            ? s.measure().inHand(dtS)
            : interrupted ? s.measure().interrupted(dtS) : s.measure();
    OptionalDouble clock =
        in.clockTrusted() ? OptionalDouble.of(in.unixTimeS()) : OptionalDouble.empty();
    Measure.Result judged =
        Measure.step(
            measure,
            remembered,
            in.signals(),
            clock,
            PoolMoves.of(settings, s, dtS),
            interrupted ? 0 : dtS);
    Measure.Result measured = checking ? judged.inFunctionCheck() : judged;
    SunOnWater sun =
        s.sun().step(settings.estimate(), measured.measurements().outside(), in.unixTimeS(), dtS);
    Estimator.Result estimated = estimate(settings, s, in, measured.measurements(), sun);
    Control.Result decided = decide(settings, s, in, measured.measurements(), estimated, sun);
    DutyRequest demand = decided.demand();
    OutputState chlorine = account(settings, s, in, Output.CHLORINE, demand.chlorineDuty());
    OutputState acid = account(settings, s, in, Output.ACID, demand.acidDuty());
    Observed seen =
        observe(settings, s, in, interrupted, measured, estimated, decided, chlorine, acid, sun);
    Interlocks.Result secured = Interlocks.step(settings.limits(), s.safety(), seen, dtS);
    Permission permission = secured.permission();
    // An outage does not count as off time: the process that died may have been on until its end.
    double switchedS = s.phase() == Phase.RESUMED ? 0 : dtS;
    chlorine =
        actuate(settings.chlorine(), chlorine, Output.CHLORINE, demand, permission, switchedS);
    acid = actuate(settings.acid(), acid, Output.ACID, demand, permission, switchedS);
    Outputs outputs =
        Interlocks.veto(
            permission,
            chlorine.modulator().output(),
            acid.modulator().output(),
            demand.pumpRequest());
    Alarms.Result alarms =
        Alarms.step(
            s.alarms(),
            s.annunciator(),
            new Alarms.Seen(
                permission.active(),
                secured.state().present(),
                settings.outOfService(),
                interrupted ? 0 : dtS,
                dtS,
                in.unixTimeS(),
                in.clockTrusted()));
    DoseTotals.Step day = day(settings, s, in, chlorine, acid);

    ScanState next =
        new ScanState(
            Phase.RUNNING,
            measured.state(),
            estimated.state(),
            decided.state(),
            secured.state(),
            chlorine,
            acid,
            alarms.entries(),
            sun,
            alarms.annunciator(),
            day.totals(),
            new StandingRequests(
                s.asked().answers().passed(dtS),
                s.asked().manual(),
                calibrations,
                s.asked().additions()));
    AlarmDetails details =
        new AlarmDetails(settings, next, measured.measurements(), estimated.estimate());
    return new ScanOutcome(
        outputs,
        next,
        measured.measurements(),
        estimated.estimate(),
        demand,
        permission,
        ScanEvents.of(commanded.events(), saved, next, alarms, details, dtS, day.ended()),
        details);
  }

  private static DoseTotals.Step day(
      ScanSettings settings, ScanState s, ScanInputs in, OutputState chlorine, OutputState acid) {
    return s.totals()
        .step(
            new DoseTotals.Amounts(chlorine.account().given(), acid.account().given()),
            settings.control().epochDay(in.unixTimeS()),
            in.clockTrusted(),
            in.elapsedS());
  }

  private static Estimator.Result estimate(
      ScanSettings settings, ScanState s, ScanInputs in, Measurements measured, SunOnWater sun) {
    double chlorineG = s.chlorine().given(settings.chlorine().caps(), in.elapsedS());
    double acidMl = s.acid().given(settings.acid().caps(), in.elapsedS());
    EstimateState before = s.estimate();
    return Estimator.step(
        settings.estimate(),
        before.drifted(before.slow().step(settings.estimate(), chlorineG, acidMl, in.elapsedS())),
        measured,
        chlorineG,
        s.control().targetMgL(),
        sun.now(settings.estimate(), in.unixTimeS()),
        in.elapsedS());
  }

  private static Control.Result decide(
      ScanSettings settings,
      ScanState s,
      ScanInputs in,
      Measurements measured,
      Estimator.Result estimated,
      SunOnWater sun) {
    return Control.step(
        settings.control(),
        s.control(),
        new Control.Inputs(
            measured,
            estimated.estimate(),
            settings.estimate(),
            settings.chlorine().feed(),
            settings.acid().fitted(),
            acidFree(s.safety().active()),
            s.acid().given(settings.acid().caps(), in.elapsedS()),
            s.chlorine().given(settings.chlorine().caps(), in.elapsedS())
                / settings.estimate().volumeM3(),
            settings.limits().blindFeedMgL(),
            s.safety().blind().leftMgL(settings.limits().blindFeedMgL()),
            allowed(s.safety().active()),
            sun),
        in.unixTimeS(),
        in.elapsedS());
  }

  /**
   * Whether nothing but the separation from chlorine keeps acid off. The separation does not count,
   * because the acid cycle itself pauses chlorine until it has passed.
   */
  private static boolean acidFree(Set<Cause> active) {
    return active.stream()
        .allMatch(c -> c == Cause.CHLORINE_RECENT || c.on(Output.ACID) == Effect.NONE);
  }

  /**
   * The best level that the interlocks leave to the control law. A cover does not count, because
   * the plan allows for it.
   */
  private static ControlLevel allowed(Set<Cause> active) {
    return active.stream()
            .anyMatch(c -> c != Cause.COVER_CLOSED && c.on(Output.CHLORINE) == Effect.LIMIT)
        ? ControlLevel.LEARNED_DEMAND
        : ControlLevel.PLAN;
  }

  private static OutputState account(
      ScanSettings settings, ScanState s, ScanInputs in, Output output, double duty) {
    double unproven = s.phase() == Phase.RESUMED ? in.booked().getOrDefault(output, 0.0) : 0;
    return s.of(output).accounted(settings.of(output).caps(), duty > 0, unproven, in.elapsedS());
  }

  private static Observed observe(
      ScanSettings settings,
      ScanState s,
      ScanInputs in,
      boolean interrupted,
      Measure.Result measured,
      Estimator.Result estimated,
      Control.Result decided,
      OutputState chlorine,
      OutputState acid,
      SunOnWater sun) {
    DutyRequest demand = decided.demand();
    Map<Output, Observed.Dose> doses = new EnumMap<>(Output.class);
    doses.put(
        Output.CHLORINE,
        chlorine.dose(
            settings.chlorine().caps(),
            demand.chlorineDuty() > 0,
            in.booked().getOrDefault(Output.CHLORINE, 0.0)));
    if (settings.acid().fitted()) {
      doses.put(
          Output.ACID,
          acid.dose(
              settings.acid().caps(),
              demand.acidDuty() > 0,
              in.booked().getOrDefault(Output.ACID, 0.0)));
    }
    return new Observed(
        measured.measurements(),
        estimated.estimate(),
        interrupted,
        decided.state().mode() == Mode.OFF,
        demand.pumpRequest(),
        settings.measure().pumpSign().rests(in.signals(), demand.pumpRequest()),
        decided.state().superchlorination().running(),
        Map.of(
            Output.CHLORINE, chlorine.modulator().output(), Output.ACID, acid.modulator().output()),
        doses,
        in.outputsDriven(),
        in.ledgerFailing(),
        in.overran(),
        in.clockTrusted(),
        stabiliser(estimated.state(), decided.state()),
        judged(estimated.state().tests(), decided.state()),
        plant(settings, s, measured, estimated.state().tests(), chlorine, in.elapsedS(), sun));
  }

  private static Observed.Plant plant(
      ScanSettings settings,
      ScanState s,
      Measure.Result measured,
      TestLog tests,
      OutputState chlorine,
      double elapsedS,
      SunOnWater sun) {
    Map<Output, Observed.Run> runs = new EnumMap<>(Output.class);
    for (Output output : Output.values()) {
      runs.put(output, s.of(output).run(settings.of(output).output(), elapsedS));
    }
    // The guard switches the outputs off in a gap.
    double fedS = Math.min(elapsedS, HardBounds.SCAN_GAP_S);
    double fedG = s.chlorine().given(settings.chlorine().caps(), fedS);
    double countedG = chlorine.account().given() - s.chlorine().account().given();
    double unprovenG = s.phase() == Phase.RESUMED ? Math.max(0, countedG - fedG) : 0;
    ProcessWatch watched = s.safety().watched();
    return new Observed.Plant(
        fedG / settings.estimate().volumeM3(),
        unprovenG / settings.estimate().volumeM3(),
        PoolMoves.expectedFallPh(settings, s, fedS),
        tests.fresh(elapsedS),
        tests.freeChlorineFresh(elapsedS),
        measured.state().phCheck().agreed(elapsedS),
        sun.covered(),
        watched.checking(),
        watched.configured().changed(),
        tests.freeChlorineAgeS(),
        runs);
  }

  private static Observed.Stabiliser stabiliser(EstimateState estimated, ControlState decided) {
    double mgL = estimated.slow().cyanuricAcidMgL();
    return new Observed.Stabiliser(
        mgL, SlowSettings.leastFreeChlorineMgL(mgL), decided.targetMgL());
  }

  private static Observed.Judged judged(TestLog tests, ControlState control) {
    return new Observed.Judged(
        control.doubt().longUnsure(),
        control.doubt().longGone(),
        control.doubt().longStarved(),
        tests.freeChlorineMgL(),
        control.capacity().tooSmall(),
        tests.combinedChlorineMgL(),
        tests.doubted().freshMgL());
  }

  private static OutputState actuate(
      Channel channel,
      OutputState state,
      Output output,
      DutyRequest demand,
      Permission permission,
      double dtS) {
    double duty =
        switch (output) {
          case CHLORINE -> permission.trim(output, demand.chlorineDuty(), demand.fallbackDuty());
          case ACID -> permission.trim(output, demand.acidDuty(), 0);
        };
    return state.modulated(channel, duty, permission.held(output), dtS);
  }
}
