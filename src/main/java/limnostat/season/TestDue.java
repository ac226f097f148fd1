package limnostat.season;

import limnostat.scan.ScanOutcome;

/** Whether the program asks for a water test: the one place that reads it. */
final class TestDue {
  private TestDue() {}

  static boolean of(ScanOutcome outcome) {
    return outcome.estimate().testDue() != limnostat.estimate.TestDue.NONE;
  }
}
