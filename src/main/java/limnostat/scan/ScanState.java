package limnostat.scan;

import java.util.Map;
import limnostat.actuate.Output;
import limnostat.alarm.Alarms;
import limnostat.control.ControlState;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.measure.MeasureState;
import limnostat.safety.Cause;
import limnostat.safety.SafetyState;

/**
 * Everything that a scan hands to the next; saved and restored it continues as if nothing had
 * happened.
 *
 * @param running whether the scan before this one ran in this process; false at the start and after
 *     a restart
 */
public record ScanState(
    boolean running,
    MeasureState measure,
    EstimateState estimate,
    ControlState control,
    SafetyState safety,
    OutputState chlorine,
    OutputState acid,
    Map<Cause, Alarms.Entry> alarms) {

  /** The state before the first scan ever. */
  public static ScanState start(ScanSettings settings) {
    double targetMgL = settings.control().freeChlorineTargetMgL();
    return new ScanState(
        false,
        MeasureState.START,
        Estimator.start(settings.estimate(), targetMgL),
        ControlState.start(targetMgL),
        SafetyState.START,
        OutputState.start(settings.chlorine()),
        OutputState.start(settings.acid()),
        Map.of());
  }

  /**
   * A saved state in a new process: the outputs are off, what was last booked counts as given, flow
   * and separation have to be proved again. What was learned, latched and chosen stays.
   *
   * @param booked what the ledger last booked of each output, cumulative; an output not in it has
   *     no booking
   */
  public ScanState resumed(ScanSettings settings, Map<Output, Double> booked) {
    return new ScanState(
        false,
        MeasureState.START,
        estimate,
        control,
        safety.resumed(),
        chlorine.resumed(settings.chlorine(), booked.getOrDefault(Output.CHLORINE, 0.0)),
        acid.resumed(settings.acid(), booked.getOrDefault(Output.ACID, 0.0)),
        alarms);
  }

  /** The outputs were switched off outside a scan; the next is the first after an interruption. */
  public ScanState stopped() {
    return new ScanState(false, measure, estimate, control, safety, chlorine, acid, alarms);
  }

  /** A state of which the account cannot be proved: both caps count as used up. */
  public ScanState accountUnknown(ScanSettings settings) {
    return new ScanState(
        running,
        measure,
        estimate,
        control,
        safety,
        chlorine.accountUnknown(settings.chlorine()),
        acid.accountUnknown(settings.acid()),
        alarms);
  }

  public OutputState of(Output output) {
    return switch (output) {
      case CHLORINE -> chlorine;
      case ACID -> acid;
    };
  }

  ScanState withEstimate(EstimateState next) {
    return new ScanState(running, measure, next, control, safety, chlorine, acid, alarms);
  }

  ScanState withControl(ControlState next) {
    return new ScanState(running, measure, estimate, next, safety, chlorine, acid, alarms);
  }

  ScanState withSafety(SafetyState next) {
    return new ScanState(running, measure, estimate, control, next, chlorine, acid, alarms);
  }

  ScanState withAlarms(Map<Cause, Alarms.Entry> next) {
    return new ScanState(running, measure, estimate, control, safety, chlorine, acid, next);
  }
}
