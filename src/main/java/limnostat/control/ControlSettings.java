package limnostat.control;

import java.time.ZoneId;
import java.util.List;

/**
 * What the control law works to.
 *
 * @param freeChlorineTargetMgL target, mg/L
 * @param phTarget target pH; acid lowers towards it, nothing raises
 * @param zone the zone of the pump windows
 * @param pumpWindows when the circulation pump is asked to run, local time; empty: always
 */
public record ControlSettings(
    double freeChlorineTargetMgL,
    double phTarget,
    ZoneId zone,
    List<PumpWindow> pumpWindows,
    PiTuning tuning) {

  /**
   * A daily window of local time; one that ends before it starts runs over midnight.
   *
   * @param startS seconds after local midnight
   * @param endS seconds after local midnight
   */
  public record PumpWindow(int startS, int endS) {}

  /**
   * The feedback on ORP.
   *
   * @param gainPerMv duty a mV of error
   * @param integralTimeS integral time Ti, s
   */
  public record PiTuning(double gainPerMv, double integralTimeS) {}
}
