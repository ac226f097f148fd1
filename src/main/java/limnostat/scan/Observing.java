package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.control.Control;
import limnostat.control.ControlState;
import limnostat.control.DutyRequest;
import limnostat.control.Mode;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.SunOnWater;
import limnostat.estimate.TestLog;
import limnostat.measure.Measure;
import limnostat.safety.HardBounds;
import limnostat.safety.Observed;
import limnostat.safety.ProcessWatch;
import limnostat.scan.ScanState.Phase;

/** What the interlocks look at, gathered from the stages before them. */
final class Observing {
  private Observing() {}

  static Observed of(
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
    double fedG = Given.in(fedS, settings, s).chlorineG();
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
}
