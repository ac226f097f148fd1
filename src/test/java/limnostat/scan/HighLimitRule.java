package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.control.Mode;
import limnostat.estimate.Estimate;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Cause;

/**
 * S9: chlorine is off on the very scan on which ORP, a trustworthy estimate or a fresh test that is
 * not believed yet is at its high limit. An estimate that is not trustworthy, as it is hardly
 * known, contradicts an ORP far below its setpoint, or doses and tests rule it out, holds nothing:
 * a pool is not to starve by it.
 */
final class HighLimitRule implements Rule {
  /** So far below its setpoint ORP contradicts a high estimate, mV, as the matrix has it. */
  private static final double FAR_BELOW_MV = 60;

  /** An estimate is trustworthy with a deviation of this share of it at most. */
  private static final double TRUSTED_SHARE = 0.35;

  /** What has been high stays so until it is this much lower, mg/L: as a share of the limit. */
  private static final double DEADBAND = 0.1;

  @Override
  public void check(Seen seen) {
    double orpMv = Double.NaN;
    if (seen.out().measured().orpMv().fresh()) {
      orpMv = ((Signal.Analog) seen.in().signals().of(Role.ORP_MV)).value() + seen.orpOffsetMv();
    }
    double limitMgL =
        seen.out().state().control().superchlorination().running()
                && seen.out().state().control().mode() == Mode.AUTO
            ? seen.settings().limits().superchlorinationMaxMgL()
            : seen.settings().limits().freeChlorineHighMgL();
    double testedMgL = seen.out().state().estimate().tests().doubted().freshMgL();
    if (seen.on(Output.CHLORINE)) {
      double mv = orpMv;
      Rule.require(
          !(mv >= seen.settings().limits().orpHighMv()), () -> "S9: chlorine on at " + mv + " mV");
      Rule.require(
          !high(seen, orpMv, limitMgL),
          () -> "S9: chlorine on at " + seen.out().estimate().freeChlorineMgL() + " mg/L");
      Rule.require(testedMgL < limitMgL, () -> "S9: chlorine on with a test of " + testedMgL);
    }
    double mv = orpMv;
    Rule.require(
        !seen.out().permission().active().contains(Cause.FREE_CHLORINE_HIGH)
            || testedMgL >= limitMgL
            || high(seen, mv, (1 - DEADBAND) * limitMgL),
        () -> "S9: held by an estimate that is not trustworthy: " + seen.out().estimate());
  }

  private static boolean high(Seen seen, double orpMv, double limitMgL) {
    Estimate estimate = seen.out().estimate();
    double sdMgL = estimate.freeChlorineSdMgL();
    boolean known =
        sdMgL <= TRUSTED_SHARE * estimate.freeChlorineMgL()
            || estimate.freeChlorineMgL() - sdMgL > limitMgL;
    boolean lowOrp = orpMv < estimate.orpSetpointMv() - FAR_BELOW_MV;
    boolean ruledOut = estimate.residual().mostByBalanceMgL() < limitMgL;
    return estimate.freeChlorineMgL() >= limitMgL
        && known
        && !lowOrp
        && !ruledOut
        && estimate.usedUp() == 0;
  }
}
