package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import limnostat.actuate.Outputs;
import limnostat.control.DutyRequest;
import limnostat.estimate.Estimate;
import limnostat.measure.Measurements;
import limnostat.safety.Interlocks.Permission;

/**
 * Everything that leaves a scan: what the outputs do until the next scan, and every stage's result
 * for display.
 *
 * @param state to hand to the next scan
 * @param events what happened, in order
 * @param details the details of alarms, in numbers
 */
public record ScanOutcome(
    Outputs outputs,
    ScanState state,
    Measurements measured,
    Estimate estimate,
    DutyRequest demand,
    Permission permission,
    List<ScanEvent> events,
    AlarmDetails details) {

  /** A copy that also has the events before the scan. */
  public ScanOutcome after(List<ScanEvent> earlier) {
    List<ScanEvent> all = new ArrayList<>(earlier);
    all.addAll(events);
    return new ScanOutcome(outputs, state, measured, estimate, demand, permission, all, details);
  }
}
