package limnostat.season;

import java.util.Optional;

/**
 * The setpoint of the ORP peers, which a person sets once. It is 700 mV until the first test. Then
 * it is the ORP at that test, shifted by 50 mV per decade of the ratio of target to result.
 */
final class OrpSetpoint {
  private static final double UNTIL_TESTED_MV = 700;
  private static final double SLOPE_MV = 50;

  private final double targetMgL;
  private double setpointMv = UNTIL_TESTED_MV;
  private boolean set;

  OrpSetpoint(double targetMgL) {
    this.targetMgL = targetMgL;
  }

  /**
   * @param orpMv ORP reading in the pool's water, mV
   */
  double at(double orpMv, Optional<KitTest> test) {
    if (!set && test.isPresent()) {
      double ratio = targetMgL / StrictMath.max(0.3, test.get().freeChlorineMgL());
      setpointMv = orpMv + SLOPE_MV * StrictMath.log10(ratio);
      set = true;
    }
    return setpointMv;
  }
}
