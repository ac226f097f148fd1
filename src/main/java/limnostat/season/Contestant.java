package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.estimate.Estimate;
import limnostat.measure.Signals;
import limnostat.scan.ScanOutcome;

/** Controls the outputs of one pool through a season. */
interface Contestant {

  /**
   * One scan.
   *
   * @param elapsedS time since the previous scan, s
   * @param test the test that the owner has just made
   * @return the outputs until the next scan
   */
  Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test);

  /** Its estimate of the water, if it has one. */
  default Optional<Estimate> estimate() {
    return Optional.empty();
  }

  /** Whether it ever asks for tests; the owners of the others test by habit. */
  default boolean asks() {
    return false;
  }

  /** Whether it asks its owner for a test now. */
  default boolean testDue() {
    return false;
  }

  /** Whether an alarm of high priority reports low chlorine; absent without alarms. */
  default Optional<Boolean> calls() {
    return Optional.empty();
  }

  /** The complete outcome of its last scan, if it is the program. */
  default Optional<ScanOutcome> outcome() {
    return Optional.empty();
  }

  /** Whether a superchlorination is in progress, or bathing is not yet permitted after one. */
  default boolean superchlorinating() {
    return false;
  }
}
