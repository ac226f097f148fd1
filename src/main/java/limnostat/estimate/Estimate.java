package limnostat.estimate;

/**
 * What the control law is given of the water.
 *
 * @param freeChlorineMgL free chlorine, mg/L
 * @param freeChlorineSdMgL its standard deviation, mg/L
 * @param demandMgLDay what the pool will use in a day at the target, mg/L a day
 * @param demandSdMgLDay its standard deviation, mg/L a day
 * @param orpSetpointMv the ORP that this electrode should show at the target, mV, by the last test
 * @param electrodeOffsetMv how far the electrode reads above the nominal one, mV
 * @param consistency whether the electrode shows what is expected of it
 * @param outlook how free chlorine will go
 * @param balance the same by doses and tests alone, as if ORP said nothing
 * @param residual how likely the chlorine of the water is gone
 * @param usedUp how many tests in a row found chlorine used up, the last not long ago
 * @param testDue whether a person is asked for a water test, and for which reason
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

  /** An estimate this much surer than its own size is trustworthy (engineering judgement). */
  private static final double TRUSTED_SD_FRACTION = 0.35;

  /** Whether it is sure enough to hold chlorine by. */
  public boolean trusted() {
    return freeChlorineSdMgL <= TRUSTED_SD_FRACTION * freeChlorineMgL;
  }

  /** The same of a belief's own deviation, as a share of free chlorine. */
  static boolean sure(double sdFraction) {
    return sdFraction <= TRUSTED_SD_FRACTION;
  }
}
