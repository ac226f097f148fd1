package limnostat.scan;

import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseTotals;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.alarm.Alarms;
import limnostat.control.Control;
import limnostat.control.ControlLevel;
import limnostat.control.DutyRequest;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.estimate.SunOnWater;
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
    Given given = Given.in(dtS, settings, s);
    Estimator.Result estimated = estimate(settings, s, in, given, measured.measurements(), sun);
    Control.Result decided =
        decide(settings, s, in, given, measured.measurements(), estimated, sun);
    DutyRequest demand = decided.demand();
    OutputState chlorine = account(settings, s, in, Output.CHLORINE, demand.chlorineDuty());
    OutputState acid = account(settings, s, in, Output.ACID, demand.acidDuty());
    Observed seen =
        Observing.of(
            settings, s, in, interrupted, measured, estimated, decided, chlorine, acid, sun);
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
      ScanSettings settings,
      ScanState s,
      ScanInputs in,
      Given given,
      Measurements measured,
      SunOnWater sun) {
    EstimateState before = s.estimate();
    return Estimator.step(
        settings.estimate(),
        before.drifted(
            before
                .slow()
                .step(settings.estimate(), given.chlorineG(), given.acidMl(), in.elapsedS())),
        measured,
        given.chlorineG(),
        s.control().targetMgL(),
        sun.now(settings.estimate(), in.unixTimeS()),
        in.elapsedS());
  }

  private static Control.Result decide(
      ScanSettings settings,
      ScanState s,
      ScanInputs in,
      Given given,
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
            given.acidMl(),
            given.chlorineG() / settings.estimate().volumeM3(),
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
