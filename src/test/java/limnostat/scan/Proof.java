package limnostat.scan;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** One history under all rules, S1–S12. */
final class Proof {
  static final int SCANS = 2000;

  /**
   * What went wrong.
   *
   * @param rule the rule that was broken, or what was thrown
   * @param events all that happened until then
   */
  record Failure(
      long seed,
      int scan,
      String rule,
      String message,
      List<Chance.Event> events,
      Optional<Seen> seen,
      Throwable thrown) {}

  private Proof() {}

  static List<Rule> rules(Step step) {
    return List.of(
        new FlowRule(),
        new SeparationRule(),
        new DoseRule(),
        new SignalRule(),
        new FieldRule(),
        new StartRule(),
        new SwitchingRule(),
        new LatchRule(),
        new CommandRule(step),
        new HighLimitRule(),
        new SchemaRule(),
        new ResponseRule(),
        new CurrentRule(),
        new StarvingRule());
  }

  static Optional<Failure> run(long seed, Optional<Set<Chance.Event>> only, Step step, Rule also) {
    return run(seed, only, step, also, SCANS);
  }

  /** The first scan that breaks a rule, if there is one. */
  static Optional<Failure> run(
      long seed, Optional<Set<Chance.Event>> only, Step step, Rule also, int scans) {
    History history = new History(seed, only, step);
    List<Rule> rules = rules(step);
    for (int scan = 0; scan < scans; scan++) {
      Seen seen = null;
      String checked = "the scan itself";
      try {
        seen = history.next();
        also.check(seen);
        for (Rule rule : rules) {
          checked = rule.getClass().getSimpleName();
          rule.check(seen);
        }
      } catch (IOException | RuntimeException | AssertionError e) {
        return Optional.of(
            new Failure(
                seed,
                scan,
                checked,
                String.valueOf(e.getMessage()),
                history.events(),
                Optional.ofNullable(seen),
                e));
      }
    }
    return Optional.empty();
  }
}
