package limnostat.scan;

import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * S1–S9 over generated histories. A failure names its seed; {@code -Dlimnostat.seed=} runs that one
 * alone, {@code -Dlimnostat.histories=} more of them.
 */
class HistoriesTest {
  private static final int SCANS = 2000;

  @Test
  void whatMustNeverHappenDoesNot() {
    Long only = Long.getLong("limnostat.seed");
    int histories = Integer.getInteger("limnostat.histories", 300);
    Coverage coverage = new Coverage();
    if (only != null) {
      run(only, coverage);
      return;
    }
    for (long seed = 1; seed <= histories; seed++) {
      run(seed, coverage);
    }
    if (histories >= 300) {
      coverage.assertComplete(histories * SCANS);
    }
  }

  private static void run(long seed, Coverage coverage) {
    History history = new History(seed);
    List<Rule> rules =
        List.of(
            coverage,
            new FlowRule(),
            new SeparationRule(),
            new DoseRule(),
            new StartRule(),
            new SwitchingRule(),
            new LatchRule(),
            new CommandRule(),
            new HighLimitRule(),
            new SchemaRule());
    for (int scan = 0; scan < SCANS; scan++) {
      Seen seen = null;
      try {
        seen = history.next();
        for (Rule rule : rules) {
          rule.check(seen);
        }
      } catch (Exception | AssertionError e) {
        throw new AssertionError(
            "-Dlimnostat.seed=" + seed + ", scan " + scan + ": " + e.getMessage() + "\n" + seen, e);
      }
    }
  }
}
