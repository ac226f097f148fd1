package limnostat.estimate;

/**
 * What the control law is told of the water.
 *
 * @param freeChlorineMgL free chlorine, mg/L
 * @param freeChlorineSdMgL its standard deviation, mg/L
 * @param demandMgLDay what the pool will use in a day at the target, mg/L a day
 * @param demandSdMgLDay its standard deviation, mg/L a day
 * @param orpSetpointMv the ORP that this electrode should show at the target, mV, by the last test
 * @param electrodeOffsetMv how far the electrode reads above the nominal one, mV
 * @param consistency whether the electrode shows what is expected of it
 * @param outlook how free chlorine will go
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
    TestDue testDue) {

  /** An estimate this much surer than its own size may be planned by (engineering judgement). */
  private static final double TRUSTED_SD_FRACTION = 0.35;

  /** Once it was not, it has to be this much surer, or the control law would go to and fro. */
  private static final double TRUSTED_AGAIN_SD_FRACTION = 0.3;

  /** Whether it is sure enough to plan a day by; otherwise ORP alone has to do. */
  public boolean trusted() {
    return trusted(true);
  }

  /**
   * @param before whether it was until now
   */
  public boolean trusted(boolean before) {
    return freeChlorineSdMgL
        <= (before ? TRUSTED_SD_FRACTION : TRUSTED_AGAIN_SD_FRACTION) * freeChlorineMgL;
  }

  /** The same of a belief's own deviation, as a share of free chlorine. */
  static boolean sure(double sdFraction) {
    return sdFraction <= TRUSTED_SD_FRACTION;
  }
}
