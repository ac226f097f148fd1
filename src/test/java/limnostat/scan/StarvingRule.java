package limnostat.scan;

import limnostat.control.ControlState;
import limnostat.control.Mode;
import limnostat.control.Plan;
import limnostat.estimate.TestLog;
import limnostat.estimate.TestVerdict;
import limnostat.safety.Cause;

/**
 * S12: a person's low test counts at once, and no electrode's word takes the feed after it below
 * what the pool uses. Where ORP has kept the plan below half of what doses and tests alone call for
 * for a day, an alarm says so, and half of that is fed. Where the last test found next to none, an
 * alarm says so at once.
 */
final class StarvingRule implements Rule {
  /** As the matrix has it, mg/L. */
  private static final double USED_UP_MG_L = 0.5;

  /** A test below this share of the target is low whatever the kit. */
  private static final double LOW = 1 / 3.0;

  private static final double SHARE = 0.5;

  /** Just after a low test ORP's word counts for less than this share of what is called for. */
  private static final double AT_ONCE = 0.75;

  private static final double DAY_S = 86_400;

  private double starvedS;

  @Override
  public void check(Seen seen) {
    ControlState control = seen.out().state().control();
    TestLog tests = seen.out().state().estimate().tests();
    boolean low = false;
    for (Command.Request request : seen.in().commands()) {
      if (request.command() instanceof Command.Test t && !refused(seen, request)) {
        double read = t.test().freeChlorineMgL().orElse(Double.POSITIVE_INFINITY);
        // Of two in one scan the last one counts.
        low = read < Double.POSITIVE_INFINITY ? read < LOW * control.targetMgL() : low;
      }
    }
    boolean usedUp = tests.freeChlorineMgL() < USED_UP_MG_L;
    Rule.require(
        usedUp == seen.out().permission().active().contains(Cause.CHLORINE_USED_UP),
        () -> "S12: a test of " + tests.freeChlorineMgL() + " mg/L and the alarm do not agree");
    if (low) {
      believed(seen, tests);
    }
    starved(seen, control);
  }

  private static boolean refused(Seen seen, Command.Request request) {
    return seen.out().events().stream()
        .anyMatch(
            e ->
                (e instanceof ScanEvent.Refused r && r.request().equals(request))
                    || (e instanceof ScanEvent.AnsweredAgain a && a.request().equals(request)));
  }

  /** The estimate goes to it, and what is fed is at least what is used, by the plan as well. */
  private static void believed(Seen seen, TestLog tests) {
    Rule.require(
        tests.verdict() == TestVerdict.BELIEVED || tests.verdict() == TestVerdict.BORNE_OUT,
        () -> "S12: a low test is not believed: " + tests);
    double targetMgL = seen.out().state().control().targetMgL();
    double estimateMgL = seen.out().estimate().freeChlorineMgL();
    Rule.require(
        estimateMgL < targetMgL,
        () -> "S12: an estimate of " + estimateMgL + " mg/L after " + tests);
    Plan plan = seen.out().state().control().plan();
    double usedDuty =
        seen.out().estimate().demandMgLDay()
            * seen.settings().estimate().volumeM3()
            / (24 * seen.settings().chlorine().caps().ratePerH());
    // At night less is used than on the mean of a day: doses and tests alone know it as well.
    double leastDuty = Math.min(usedDuty, AT_ONCE * plan.balanceDuty()) - 0.01;
    Rule.require(
        plan.duty() >= leastDuty, () -> "S12: " + plan + " after " + tests + ", used " + usedDuty);
    ControlState control = seen.out().state().control();
    boolean byPlan =
        control.mode() == Mode.AUTO
            && seen.out().measured().orpMv().fresh()
            && !control.superchlorination().running()
            && control.bump() >= 0;
    Rule.require(
        !byPlan || control.lastDuty() >= Math.min(1, leastDuty),
        () -> "S12: " + control.lastDuty() + " after " + tests + ", used " + usedDuty);
  }

  private void starved(Seen seen, ControlState control) {
    if (seen.start().newProcess()) {
      starvedS = 0; // its state may be older, and a new one knows of none
    }
    boolean tested =
        seen.out().events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.Accepted a
                        && a.request().command() instanceof Command.Test t
                        && t.test().ofFreeChlorine());
    starvedS = tested ? 0 : starvedS;
    if (control.mode() != Mode.AUTO || control.superchlorination().running()) {
      return;
    }
    boolean little = control.plan().duty() < SHARE * control.plan().balanceDuty();
    starvedS = little ? starvedS + Math.min(60, seen.in().elapsedS()) : 0;
    if (starvedS <= DAY_S + 60) {
      return;
    }
    Rule.require(
        seen.out().permission().active().contains(Cause.STARVED_BY_ORP),
        () -> "S12: starved for " + starvedS + " s by " + control.plan() + ", and no alarm");
    double least =
        Math.min(SHARE * control.plan().balanceDuty(), seen.out().demand().fallbackDuty());
    // Against the electrode's word no more than the blind budget is fed.
    boolean spends = control.doubt().against().fedMgL() > 0;
    Rule.require(
        control.lastDuty() >= least - ROUNDING || control.bump() < 0 || spends,
        () -> "S12: " + control.lastDuty() + " is fed by " + control.plan());
  }
}
