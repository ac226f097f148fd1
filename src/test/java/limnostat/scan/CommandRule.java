package limnostat.scan;

import java.util.List;
import limnostat.control.ControlState;
import limnostat.safety.HardBounds;
import limnostat.safety.SafetyLimits;
import org.junit.jupiter.api.Assertions;

/** S8: no command moves anything past a limit, and a refused one changes nothing. */
final class CommandRule implements Rule {
  @Override
  public void check(Seen seen) {
    SafetyLimits limits = seen.settings().limits();
    ControlState control = seen.out().state().control();
    double highMgL = Math.min(limits.freeChlorineHighMgL(), HardBounds.TARGET_MG_L);
    Rule.require(
        control.targetMgL() >= 1 && control.targetMgL() <= highMgL,
        () -> "S8: target " + control.targetMgL() + " mg/L");
    double levelMgL = control.superchlorination().levelMgL();
    Rule.require(
        levelMgL >= 0
            && levelMgL <= limits.superchlorinationMaxMgL()
            && control.superchlorination().leftS() <= 48 * 3600,
        () -> "S8: " + control.superchlorination());
    unit("manual duty", control.manualDuty());
    unit("chlorine duty", seen.out().demand().chlorineDuty());
    unit("fallback duty", seen.out().demand().fallbackDuty());
    unit("acid duty", seen.out().demand().acidDuty());

    List<Command.Request> refused =
        seen.out().events().stream()
            .filter(ScanEvent.Refused.class::isInstance)
            .map(event -> ((ScanEvent.Refused) event).request())
            .toList();
    if (!refused.isEmpty()) {
      List<Command.Request> granted =
          seen.in().commands().stream().filter(c -> !refused.contains(c)).toList();
      ScanInputs without = Inputs.withCommands(seen.in(), granted);
      Assertions.assertEquals(
          withoutAnswers(Scan.step(seen.settings(), seen.before(), without).state()),
          withoutAnswers(seen.out().state()),
          () -> "S8: a refused command changed the state: " + refused);
    }
  }

  /** What was answered is remembered, and nothing else. */
  private static ScanState withoutAnswers(ScanState state) {
    return state.withAsked(state.asked().with(Answers.NONE));
  }

  private static void unit(String what, double duty) {
    Rule.require(duty >= 0 && duty <= 1, () -> "S8: " + what + " " + duty);
  }
}
