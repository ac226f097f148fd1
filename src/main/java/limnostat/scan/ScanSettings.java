package limnostat.scan;

import java.util.Optional;
import limnostat.account.DoseCaps;
import limnostat.actuate.OutputSettings;
import limnostat.control.ControlSettings;
import limnostat.estimate.EstimateSettings;
import limnostat.measure.MeasureSettings;
import limnostat.safety.SafetyLimits;

/**
 * Everything the scan is told of one installation; fixed for the life of the process.
 *
 * @param chlorine the chlorine output
 * @param acid the acid output, where fitted
 */
public record ScanSettings(
    MeasureSettings measure,
    EstimateSettings estimate,
    ControlSettings control,
    SafetyLimits limits,
    Channel chlorine,
    Optional<Channel> acid) {

  /** One output: how it is driven and how much it may give. */
  public record Channel(OutputSettings output, DoseCaps caps) {}
}
