package limnostat.estimate;

/**
 * The estimate of the water, as the control law gets it.
 *
 * @param freeChlorineMgL free chlorine, mg/L
 * @param freeChlorineSdMgL its standard deviation, mg/L
 * @param demandMgLDay use of the pool in a day at the target, mg/L per day
 * @param demandSdMgLDay its standard deviation, mg/L per day
 * @param orpSetpointMv the ORP that this electrode should show at the target, mV, by the last test
 * @param electrodeOffsetMv how far the electrode reads above the nominal one, mV
 * @param consistency whether the electrode shows what is expected of it
 * @param outlook forecast of free chlorine
 * @param balance the same by doses and tests alone, ignoring ORP
 * @param residual how likely it is that the chlorine is gone
 * @param usedUp number of tests in a row that found the chlorine used up, the last one recent
 * @param testDue whether a person is asked for a water test, and why
 */
public record Estimate(
    double freeChlorineMgL,
    double freeChlorineSdMgL,
    double demandMgLDay,
    double demandSdMgLDay,
    double orpSetpointMv,
    double electrodeOffsetMv,
    Consistency consistency,
    Outlook outlook,
    Outlook balance,
    Residual residual,
    int usedUp,
    TestDue testDue) {

  /**
   * An estimate with a deviation up to this share of its value is trustworthy (engineering
   * judgement).
   */
  private static final double TRUSTED_SD_FRACTION = 0.35;

  /** Whether it is certain enough to control chlorine by. */
  public boolean trusted() {
    return freeChlorineSdMgL <= TRUSTED_SD_FRACTION * freeChlorineMgL;
  }

  /** The same for a belief's deviation, as a share of free chlorine. */
  static boolean sure(double sdFraction) {
    return sdFraction <= TRUSTED_SD_FRACTION;
  }
}
