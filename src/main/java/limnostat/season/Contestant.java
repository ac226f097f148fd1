package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.estimate.Estimate;
import limnostat.measure.Signals;
import limnostat.scan.ScanOutcome;

/** What drives the outputs of one pool through a season. */
interface Contestant {

  /**
   * One scan.
   *
   * @param elapsedS time since the last one, s
   * @param test what the owner has just tested
   * @return what the outputs do until the next one
   */
  Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test);

  /** What it believes of the water, if it believes anything. */
  default Optional<Estimate> estimate() {
    return Optional.empty();
  }

  /** Whether it is one that asks for tests at all; the owners of others test by habit. */
  default boolean asks() {
    return false;
  }

  /** Whether it asks its owner for a test now. */
  default boolean testDue() {
    return false;
  }

  /** Whether an alarm of high priority speaks of low chlorine; absent without alarms. */
  default Optional<Boolean> calls() {
    return Optional.empty();
  }

  /** The whole of its last scan, where it is the program. */
  default Optional<ScanOutcome> outcome() {
    return Optional.empty();
  }

  /** Whether a superchlorination runs or nobody may bathe yet after one. */
  default boolean superchlorinating() {
    return false;
  }
}
