package limnostat.safety;

import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;

/**
 * What the interlocks remember.
 *
 * @param active causes that count on the last scan, latched ones included
 * @param present causes whose condition held on the last scan
 * @param pendingS causes whose delay runs, with the time so far, s
 * @param sinceOnS time since each output was last on, s
 * @param limitedS for how long chlorine has been limited to the fallback, s
 */
public record SafetyState(
    Set<Cause> active,
    Set<Cause> present,
    Map<Cause, Double> pendingS,
    Map<Output, Double> sinceOnS,
    double limitedS) {

  /**
   * What went before is not known, so both outputs count as on until now: the separation time has
   * to pass.
   */
  public static final SafetyState START =
      new SafetyState(
          Set.of(), Set.of(), Map.of(), Map.of(Output.CHLORINE, 0.0, Output.ACID, 0.0), 0);
}
