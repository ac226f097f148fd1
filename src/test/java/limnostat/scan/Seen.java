package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.measure.PhCalibration;
import limnostat.measure.Role;

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

  /** What a person's calibration has set in the place of the file's offset of ORP, mV. */
  double orpOffsetMv() {
    Calibrations.Calibrated made = out.state().asked().calibrations().made().get(Role.ORP_MV);
    return made == null ? settings.measure().orpOffsetMv() : made.now().offsetMv();
  }

  /** pH of a potential, by what a person's calibration or the file has set. */
  double ph(double mv, double waterC) {
    Calibrations.Calibrated made = out.state().asked().calibrations().made().get(Role.PH_MV);
    PhCalibration file = settings.measure().phCalibration();
    double offsetMv = made == null ? file.offsetMv() : made.now().offsetMv();
    double slopeFraction = made == null ? file.slopeFraction() : made.now().slopeFraction();
    // ln 10 R T/F a unit of pH, SI 2019 constants.
    return 7 - (mv - offsetMv) / (slopeFraction * 0.198_415_6 * (waterC + 273.15));
  }

  boolean on(Output output) {
    return out.outputs().of(output) > 0;
  }

  boolean wasOn(Output output) {
    return driven.of(output) > 0 && drivenUntilS > lastS;
  }
}
