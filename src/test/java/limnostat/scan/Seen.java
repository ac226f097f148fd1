package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.actuate.Outputs;

/**
 * One scan of a generated history with what truly happened around it; what the rules check.
 *
 * @param start what went before
 * @param atS true monotonic time of the scan, s
 * @param lastS true time of the scan before, s
 * @param driven what the outputs gave from then on ...
 * @param drivenUntilS ... until this time, s; from there to this scan they were off
 */
record Seen(
    ScanSettings settings,
    Start start,
    double atS,
    double lastS,
    Outputs driven,
    double drivenUntilS,
    ScanState before,
    ScanInputs in,
    ScanOutcome out) {

  enum Start {
    RUNNING,
    FIRST,
    GAP,
    /** A new process, from a saved state that may be some scans old. */
    RESUMED,
    /** A new process that knows of no state: only what the ledger has booked. */
    FORGOTTEN;

    boolean newProcess() {
      return this == FIRST || this == RESUMED || this == FORGOTTEN;
    }
  }

  boolean interrupted() {
    return start != Start.RUNNING;
  }

  boolean on(Output output) {
    return out.outputs().of(output) > 0;
  }

  boolean wasOn(Output output) {
    return driven.of(output) > 0 && drivenUntilS > lastS;
  }
}
