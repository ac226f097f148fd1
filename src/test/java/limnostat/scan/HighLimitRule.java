package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.control.Mode;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/**
 * S9: chlorine is off on the very scan on which ORP, the estimate or a fresh test that is not
 * believed yet is at its high limit.
 */
final class HighLimitRule implements Rule {
  @Override
  public void check(Seen seen) {
    if (!seen.on(Output.CHLORINE)) {
      return;
    }
    if (seen.out().measured().orpMv().fresh()) {
      double orpMv =
          ((Signal.Analog) seen.in().signals().of(Role.ORP_MV)).value() + seen.orpOffsetMv();
      Rule.require(
          orpMv < seen.settings().limits().orpHighMv(),
          () -> "S9: chlorine on at " + orpMv + " mV");
    }
    double limitMgL =
        seen.out().state().control().superchlorination().running()
                && seen.out().state().control().mode() == Mode.AUTO
            ? seen.settings().limits().superchlorinationMaxMgL()
            : seen.settings().limits().freeChlorineHighMgL();
    double estimateMgL = seen.out().estimate().freeChlorineMgL();
    Rule.require(estimateMgL < limitMgL, () -> "S9: chlorine on at " + estimateMgL + " mg/L");
    double testedMgL = seen.out().state().estimate().tests().doubted().freshMgL();
    Rule.require(testedMgL < limitMgL, () -> "S9: chlorine on with a test of " + testedMgL);
  }
}
