package limnostat.season;

import java.util.SplittableRandom;

/**
 * How an owner responds to a request for a test.
 *
 * @param everyS shortest mean interval between two tests on request, s
 * @param savedMax most tests that can be saved up while none is requested
 * @param soonestS shortest delay, s
 * @param latestS longest delay, s; people who are asleep respond later
 * @param awakeFromH hour of the local day from which people are awake
 * @param awakeUntilH hour of the local day until which people are awake
 * @param waitsForPump whether the test is made only while the pump runs
 * @param localMidnightUnixS any local midnight, Unix s
 */
record Answering(
    double everyS,
    double savedMax,
    double soonestS,
    double latestS,
    double awakeFromH,
    double awakeUntilH,
    boolean waitsForPump,
    double localMidnightUnixS) {

  /** Once a week, some hours after the request, or once the pump runs the next day. */
  static Answering weekly() {
    return new Answering(7 * SeasonSettings.DAY_S, 2, 4 * 3600, 4 * 3600, 0, 24, true, 0);
  }

  /** At most every other day, 1 to 10 h after the request, when people are awake. */
  static Answering willing(double localMidnightUnixS) {
    return new Answering(
        2 * SeasonSettings.DAY_S, 1, 3600, 10 * 3600, 7.5, 22, false, localMidnightUnixS);
  }

  /** Delay after a request at a given time, s: the same for every contestant. */
  double delayS(double unixTimeS) {
    if (latestS == soonestS) {
      return soonestS;
    }
    double drawn = new SplittableRandom((long) unixTimeS / 3600).nextDouble();
    return soonestS + (latestS - soonestS) * drawn;
  }

  /** Whether the test can be made now. */
  boolean possible(boolean pumpRuns, double unixTimeS) {
    double days = (unixTimeS - localMidnightUnixS) / SeasonSettings.DAY_S;
    double hour = 24 * (days - StrictMath.floor(days));
    return (pumpRuns || !waitsForPump) && hour >= awakeFromH && hour < awakeUntilH;
  }
}
