package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.measure.FlowSensor;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Cause;

/**
 * S1: no output unless the raw flow signal has been there on every scan for the proving time, since
 * the last interruption, nor before the probes see the pool's own water; and flow that stood for
 * three minutes while the pump's contact was open proves nothing until it has been seen to stop.
 * Nor does flow outside the pump's hours for a quarter of an hour, where nothing else shows what
 * the pump does.
 */
final class FlowRule implements Rule {
  /** As in the matrix, s. */
  private static final double STUCK_S = 180;

  private static final double UNASKED_S = 900;

  private double sinceS = Double.NaN;
  private double standsS = -1;
  private boolean stuck;
  private double unaskedS = -1;

  @Override
  public void check(Seen seen) {
    Signal signal = seen.in().signals().of(Role.FLOW);
    boolean flow = flows(seen.settings().measure().flow(), signal);
    sinceS = !flow ? Double.NaN : Double.isNaN(sinceS) || seen.interrupted() ? seen.atS() : sinceS;
    look(seen, flow);
    double provenS = seen.atS() - sinceS; // NaN: no flow
    double proving = seen.settings().limits().flowProvingS();
    double fresh = seen.settings().measure().freshWaterS();
    for (Output output : Output.values()) {
      Rule.require(
          !seen.on(output) || provenS >= proving - ROUNDING,
          () -> "S1: " + output + " on with flow proven for " + provenS + " s");
      Rule.require(
          !seen.on(output) || provenS >= fresh - ROUNDING,
          () -> "S1: " + output + " on in standing water, flow for " + provenS + " s");
      Rule.require(!seen.on(output) || !stuck, () -> "S1: " + output + " on, flow switch stuck");
      Rule.require(
          !seen.on(output) || unaskedS < UNASKED_S + seen.in().elapsedS(),
          () -> "S1: " + output + " on, flow outside the pump's hours for " + unaskedS + " s");
    }
  }

  private void look(Seen seen, boolean flow) {
    if (seen.start().newProcess()) {
      stuck = false; // its state may be older
      standsS = -1;
    }
    Signal pump = seen.in().signals().of(Role.PUMP_ON);
    boolean rests =
        seen.settings().measure().pumpSign() == PumpSign.CONTACT
            && pump instanceof Signal.Contact c
            && !c.closed();
    double sawS = seen.interrupted() ? 0 : seen.in().elapsedS();
    standsS = !(flow && rests) ? -1 : standsS >= 0 ? standsS + sawS : 0;
    boolean unasked =
        flow
            && seen.settings().measure().pumpSign() == PumpSign.NONE
            && !(pump instanceof Signal.Contact c && c.closed())
            && !seen.out().demand().pumpRequest()
            && !seen.out().permission().active().contains(Cause.FUNCTION_CHECK);
    unaskedS = !unasked || seen.start().newProcess() ? -1 : unaskedS >= 0 ? unaskedS + sawS : 0;
    stuck = standsS >= STUCK_S + ROUNDING || (stuck && (flow || !read(seen)));
  }

  /** Whether the signal tells anything, so that none of it is flow that stopped. */
  private static boolean read(Seen seen) {
    Signal signal = seen.in().signals().of(Role.FLOW);
    return seen.settings().measure().flow() instanceof FlowSensor.Meter m
        ? signal instanceof Signal.Analog a && a.value() <= m.maximumLMin()
        : signal instanceof Signal.Contact;
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
