package limnostat.season;

import java.util.Iterator;
import java.util.List;

/**
 * The person who tests. Some test by habit. Others test once when the probes are fitted, and then
 * only when asked.
 */
final class Owner {
  private final Iterator<Double> habit;
  private final boolean answering;
  private final Answering manner;
  private double nextHabitUnixS;
  private double askedForUnixS = Double.POSITIVE_INFINITY;
  private double credit = 1;
  private boolean begun;

  /**
   * @param habitUnixS when the owner tests without being asked, in order, Unix s
   * @param answering whether the owner tests on request and not by habit
   */
  Owner(List<Double> habitUnixS, boolean answering) {
    this(habitUnixS, answering, Answering.weekly());
  }

  Owner(List<Double> habitUnixS, boolean answering, Answering manner) {
    this.manner = manner;
    this.habit = habitUnixS.iterator();
    this.answering = answering;
    this.nextHabitUnixS = next();
  }

  /**
   * Whether a test is made now.
   *
   * @param asked whether a test is requested
   * @param pumpRuns a requested test may have to wait for the pump
   */
  boolean tests(boolean asked, boolean pumpRuns, double unixTimeS, double elapsedS) {
    credit = StrictMath.min(manner.savedMax(), credit + elapsedS / manner.everyS());
    if (unixTimeS >= nextHabitUnixS) {
      nextHabitUnixS = next();
      askedForUnixS = Double.POSITIVE_INFINITY;
      return true;
    }
    if (answering && asked && askedForUnixS == Double.POSITIVE_INFINITY && credit >= 1) {
      credit--;
      askedForUnixS = unixTimeS + manner.delayS(unixTimeS);
    }
    if (unixTimeS >= askedForUnixS && manner.possible(pumpRuns, unixTimeS)) {
      askedForUnixS = Double.POSITIVE_INFINITY;
      return true;
    }
    return false;
  }

  private double next() {
    double next =
        habit.hasNext() && !(answering && begun) ? habit.next() : Double.POSITIVE_INFINITY;
    begun = true;
    return next;
  }
}
