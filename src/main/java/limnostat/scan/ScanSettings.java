package limnostat.scan;

import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.control.ControlSettings;
import limnostat.control.Feed;
import limnostat.estimate.EstimateSettings;
import limnostat.measure.MeasureSettings;
import limnostat.safety.Cause;
import limnostat.safety.SafetyLimits;
import limnostat.safety.SetpointLimits;

/**
 * The whole configuration of one installation; fixed for the life of the process.
 *
 * @param chlorine the chlorine output
 * @param acid the acid output; {@link Channel#NONE} where none is fitted
 * @param setpoints what may be set at run time
 * @param outOfService alarms that the installer has taken out of service
 * @param network what commands over the network may do
 */
public record ScanSettings(
    MeasureSettings measure,
    EstimateSettings estimate,
    ControlSettings control,
    SafetyLimits limits,
    Channel chlorine,
    Channel acid,
    SetpointLimits setpoints,
    Set<Cause> outOfService,
    NetworkRules network) {

  /** With every command allowed over the network. */
  public ScanSettings(
      MeasureSettings measure,
      EstimateSettings estimate,
      ControlSettings control,
      SafetyLimits limits,
      Channel chlorine,
      Channel acid,
      SetpointLimits setpoints,
      Set<Cause> outOfService) {
    this(
        measure,
        estimate,
        control,
        limits,
        chlorine,
        acid,
        setpoints,
        outOfService,
        NetworkRules.OPEN);
  }

  /** With the widest limits on setpoints, and every alarm in service. */
  public ScanSettings(
      MeasureSettings measure,
      EstimateSettings estimate,
      ControlSettings control,
      SafetyLimits limits,
      Channel chlorine,
      Channel acid) {
    this(measure, estimate, control, limits, chlorine, acid, SetpointLimits.WIDEST, Set.of());
  }

  /** A copy with other rules for the network. */
  public ScanSettings with(NetworkRules rules) {
    return new ScanSettings(
        measure, estimate, control, limits, chlorine, acid, setpoints, outOfService, rules);
  }

  public Channel of(Output output) {
    return switch (output) {
      case CHLORINE -> chlorine;
      case ACID -> acid;
    };
  }

  /** One output: how it is driven and how much it may give. */
  public record Channel(OutputSettings output, DoseCaps caps) {
    /** No output: it gives nothing. */
    public static final Channel NONE =
        new Channel(
            new OutputSettings(OutputSettings.Drive.RELAY, 1, 0, 0, 1, 0),
            new DoseCaps(0, 0, 0, 0));

    /** As the control law sees it. */
    Feed feed() {
      return new Feed(caps.ratePerH(), caps.hourCap(), caps.dayCap());
    }

    public boolean fitted() {
      return caps.ratePerH() > 0;
    }
  }
}
