package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.measure.FlowSensor;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/**
 * S1: no output unless the raw flow signal has been there on every scan for the proving time, since
 * the last interruption.
 */
final class FlowRule implements Rule {
  private double sinceS = Double.NaN;

  @Override
  public void check(Seen seen) {
    boolean flow = flows(seen.settings().measure().flow(), seen.in().signals().of(Role.FLOW));
    sinceS = !flow ? Double.NaN : Double.isNaN(sinceS) || seen.interrupted() ? seen.atS() : sinceS;
    double provenS = seen.atS() - sinceS; // NaN: no flow
    for (Output output : Output.values()) {
      Rule.require(
          !seen.on(output) || provenS >= seen.settings().limits().flowProvingS() - ROUNDING,
          () -> "S1: " + output + " on with flow proven for " + provenS + " s");
    }
  }

  private static boolean flows(FlowSensor sensor, Signal signal) {
    if (sensor instanceof FlowSensor.Meter meter) {
      return signal instanceof Signal.Analog a
          && Double.isFinite(a.value())
          && a.value() >= meter.minimumLMin();
    }
    return signal instanceof Signal.Contact c && c.closed();
  }
}
