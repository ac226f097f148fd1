package limnostat.scan;

import java.util.List;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.measure.Signals;

/**
 * Everything that enters a scan. Time enters as elapsed time, so no clock can move a limit.
 *
 * @param elapsedS monotonic time since the last scan, s; after a restart the proven part of the
 *     outage
 * @param unixTimeS wall clock, Unix s: used for the sun's position, the pump's hours and time
 *     stamps for people
 * @param clockTrusted whether the wall clock is trusted
 * @param signals field signals
 * @param booked each output's booked amount as the ledger confirms it, cumulative, in the unit of
 *     the account
 * @param ledgerFailing whether the ledger cannot be written
 * @param overran whether the previous scan began late or took most of its period
 * @param outputsDriven whether the last write to the outputs succeeded
 * @param commands commands that arrived since the last scan, in order
 */
public record ScanInputs(
    double elapsedS,
    double unixTimeS,
    boolean clockTrusted,
    Signals signals,
    Map<Output, Double> booked,
    boolean ledgerFailing,
    boolean overran,
    boolean outputsDriven,
    List<Command.Request> commands) {

  /** After a punctual scan. */
  public ScanInputs(
      double elapsedS,
      double unixTimeS,
      boolean clockTrusted,
      Signals signals,
      Map<Output, Double> booked,
      boolean ledgerFailing,
      boolean outputsDriven,
      List<Command.Request> commands) {
    this(
        elapsedS,
        unixTimeS,
        clockTrusted,
        signals,
        booked,
        ledgerFailing,
        false,
        outputsDriven,
        commands);
  }
}
