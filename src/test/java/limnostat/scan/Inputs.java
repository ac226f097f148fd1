package limnostat.scan;

import java.util.List;
import limnostat.measure.Signals;

/** Variations of one scan's inputs. */
final class Inputs {
  private Inputs() {}

  static ScanInputs withCommands(ScanInputs in, List<Command.Request> commands) {
    return new ScanInputs(
        in.elapsedS(),
        in.unixTimeS(),
        in.clockTrusted(),
        in.signals(),
        in.booked(),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        commands);
  }

  static ScanInputs withSignals(ScanInputs in, Signals signals) {
    return new ScanInputs(
        in.elapsedS(),
        in.unixTimeS(),
        in.clockTrusted(),
        signals,
        in.booked(),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        in.commands());
  }

  static ScanInputs withWallClock(ScanInputs in, double unixTimeS) {
    return new ScanInputs(
        in.elapsedS(),
        unixTimeS,
        in.clockTrusted(),
        in.signals(),
        in.booked(),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        in.commands());
  }
}
