package limnostat.season;

import limnostat.scan.ScanOutcome;

/** Whether the program asks for a water test. Only this class reads that. */
final class TestDue {
  private TestDue() {}

  static boolean of(ScanOutcome outcome) {
    return outcome.estimate().testDue() != limnostat.estimate.TestDue.NONE;
  }
}
