package limnostat.scan;

import java.util.List;
import limnostat.actuate.Output;
import limnostat.control.ControlState;
import limnostat.control.Mode;
import limnostat.safety.HardBounds;
import limnostat.safety.Priority;
import limnostat.safety.SafetyLimits;
import org.junit.jupiter.api.Assertions;

/** S8: no command moves anything past a limit, and a refused one changes nothing. */
final class CommandRule implements Rule {
  /** Longest function check, and longest time on a shelf, of the program itself, s. */
  private static final double CHECK_MAX_S = 4 * 3600.0;

  private static final double DAY_S = 24 * 3600.0;

  private final Step step;
  private double checkLeftS;

  CommandRule(Step step) {
    this.step = step;
  }

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
            && control.superchlorination().leftS()
                <= Math.min(48 * 3600, seen.settings().setpoints().superchlorinationMaxS()),
        () -> "S8: " + control.superchlorination());
    unit("manual duty", control.manualDuty());
    Rule.require(
        control.manualDuty() <= seen.settings().setpoints().manualDutyMax(),
        () -> "S8: manual duty " + control.manualDuty());
    shelves(seen);
    stopped(seen);
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
          withoutAnswers(step.step(seen.settings(), seen.before(), without).state()),
          withoutAnswers(seen.out().state()),
          () -> "S8: a refused command changed the state: " + refused);
    }
  }

  /** What was answered is remembered, and nothing else. */
  private static ScanState withoutAnswers(ScanState state) {
    return state.withAsked(state.asked().with(Answers.NONE));
  }

  private static void shelves(Seen seen) {
    double mostS = Math.min(DAY_S, seen.settings().setpoints().shelfMaxS());
    seen.out()
        .state()
        .alarms()
        .forEach(
            (cause, entry) ->
                Rule.require(
                    entry.shelf().leftS() <= mostS
                        && !(entry.shelf().running() && cause.priority() == Priority.CRITICAL),
                    () -> "S8: " + cause + " on " + entry.shelf()));
  }

  /** What a person stopped is off: by mode off, or while a function check runs. */
  private void stopped(Seen seen) {
    checkLeftS = seen.start().newProcess() ? 0 : checkLeftS - seen.in().elapsedS();
    for (ScanEvent event : seen.out().events()) {
      if (event instanceof ScanEvent.Accepted a) {
        Command command = a.request().command();
        Rule.require(
            !(command instanceof Command.ResetSeason), () -> "S8: season reset from a network");
        if (command instanceof Command.FunctionCheck check) {
          Rule.require(check.forS() <= CHECK_MAX_S, () -> "S8: " + check);
          checkLeftS = check.forS();
        }
      }
    }
    boolean off = seen.out().state().control().mode() == Mode.OFF;
    boolean on = seen.on(Output.CHLORINE) || seen.on(Output.ACID);
    Rule.require(!(off && on), () -> "S8: " + seen.out().outputs() + " in mode off");
    Rule.require(
        !(checkLeftS > ROUNDING && on),
        () -> "S8: " + seen.out().outputs() + " in a function check");
  }

  private static void unit(String what, double duty) {
    Rule.require(duty >= 0 && duty <= 1, () -> "S8: " + what + " " + duty);
  }
}
