package limnostat.season;

import java.util.SplittableRandom;

/**
 * How an owner answers when asked for a test.
 *
 * @param everyS least time between two answers on average, s
 * @param savedMax answers that may be saved up while nothing is asked
 * @param soonestS least delay, s
 * @param latestS longest delay, s; people who sleep answer later
 * @param awakeFromH hour of the local day from which people are awake
 * @param awakeUntilH hour until which they are
 * @param waitsForPump whether it is done only while the pump runs
 * @param localMidnightUnixS a local midnight, Unix s
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

  /** Once a week, some hours later, or once the pump runs the next day. */
  static Answering weekly() {
    return new Answering(7 * SeasonSettings.DAY_S, 2, 4 * 3600, 4 * 3600, 0, 24, true, 0);
  }

  /** At most each other day, 1 to 10 h later, when people are awake. */
  static Answering willing(double localMidnightUnixS) {
    return new Answering(
        2 * SeasonSettings.DAY_S, 1, 3600, 10 * 3600, 7.5, 22, false, localMidnightUnixS);
  }

  /** Delay of an answer to what is asked at a time, s: the same for every contestant. */
  double delayS(double unixTimeS) {
    if (latestS == soonestS) {
      return soonestS;
    }
    double drawn = new SplittableRandom((long) unixTimeS / 3600).nextDouble();
    return soonestS + (latestS - soonestS) * drawn;
  }

  /** Whether it can be done now. */
  boolean possible(boolean pumpRuns, double unixTimeS) {
    double days = (unixTimeS - localMidnightUnixS) / SeasonSettings.DAY_S;
    double hour = 24 * (days - StrictMath.floor(days));
    return (pumpRuns || !waitsForPump) && hour >= awakeFromH && hour < awakeUntilH;
  }
}
