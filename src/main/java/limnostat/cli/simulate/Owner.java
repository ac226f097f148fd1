package limnostat.cli.simulate;

import java.util.Iterator;
import java.util.List;

/**
 * The person who tests: by habit; or, where so minded, when the probes are fitted and then only
 * within a day of being asked, at most once a week on average.
 */
final class Owner {
  private static final double WEEK_S = 7 * SeasonSettings.DAY_S;

  /** Tests that may be saved up while nothing is asked. */
  private static final double CREDIT_MAX = 2;

  private final Iterator<Double> habit;
  private final boolean answering;
  private double nextHabitUnixS;
  private double askedForUnixS = Double.POSITIVE_INFINITY;
  private double credit = 1;
  private boolean begun;

  /**
   * @param habitUnixS when the owner tests unasked, in order, Unix s
   * @param answering whether the owner tests when asked, and not by habit
   */
  Owner(List<Double> habitUnixS, boolean answering) {
    this.habit = habitUnixS.iterator();
    this.answering = answering;
    this.nextHabitUnixS = next();
  }

  /**
   * Whether a test is made now.
   *
   * @param asked whether one is asked for
   * @param pumpRuns an asked test waits for the pump, as the hands of a person do
   */
  boolean tests(boolean asked, boolean pumpRuns, double unixTimeS, double elapsedS) {
    credit = StrictMath.min(CREDIT_MAX, credit + elapsedS / WEEK_S);
    if (unixTimeS >= nextHabitUnixS) {
      nextHabitUnixS = next();
      askedForUnixS = Double.POSITIVE_INFINITY;
      return true;
    }
    if (answering && asked && askedForUnixS == Double.POSITIVE_INFINITY && credit >= 1) {
      credit--;
      // some hours later, or once the pump runs the next day
      askedForUnixS = unixTimeS + 4 * 3600;
    }
    if (unixTimeS >= askedForUnixS && pumpRuns) {
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
