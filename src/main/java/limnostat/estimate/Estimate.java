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
 * @param innovationMv last difference between ORP and expectation, mV
 * @param innovationSdMv its expected standard deviation, mV
 * @param outlook how free chlorine will go
 */
public record Estimate(
    double freeChlorineMgL,
    double freeChlorineSdMgL,
    double demandMgLDay,
    double demandSdMgLDay,
    double orpSetpointMv,
    double electrodeOffsetMv,
    double innovationMv,
    double innovationSdMv,
    Outlook outlook) {

  /** An estimate this much surer than its own size may be planned by (engineering judgement). */
  private static final double TRUSTED_SD_FRACTION = 0.35;

  /** Whether it is sure enough to plan a day by; otherwise ORP alone has to do. */
  public boolean trusted() {
    return freeChlorineSdMgL <= TRUSTED_SD_FRACTION * freeChlorineMgL;
  }
}
