package limnostat.season;

import java.util.Optional;
import limnostat.estimate.Estimate;
import limnostat.plant.Truth;

/** Counts the figures of one contestant over one season. */
final class Tally {
  /**
   * Lowest acceptable ratio of free chlorine to stabiliser (stabiliser at most 20 times as high),
   * as in SlowSettings.
   */
  private static final double SANITISING_SHARE = 0.05;

  /** Water without chlorine, mg/L. */
  private static final double STARVED_MG_L = 0.5;

  private final Band band;
  private final double localMidnightUnixS;
  private double timeS;
  private double inBandS;
  private double belowOneS;
  private double belowSanitisingS;
  private double aboveTenS;
  private double highestMgL;
  private double fedG;
  private long switchings;
  private boolean on;
  private int tests;
  private double estimatedS;
  private double squaredErrorS;
  private double coveredS;
  private double dayS;
  private double dayInBandS;
  private double dayBelowOneS;
  private boolean alarms;
  private double silentS;
  private double longestSilentS;

  /**
   * @param localMidnightUnixS any local midnight, Unix s
   */
  Tally(Band band, double localMidnightUnixS) {
    this.band = band;
    this.localMidnightUnixS = localMidnightUnixS;
  }

  void tested() {
    tests++;
  }

  /**
   * Adds one step.
   *
   * @param truth at the end of the step
   * @param chlorineOn whether chlorine was on during the step
   * @param estimate at the start of the step
   * @param calls whether an alarm of high priority reports low chlorine; absent without alarms
   */
  void passed(
      double stepS,
      Truth truth,
      boolean chlorineOn,
      boolean superchlorinating,
      Optional<Estimate> estimate,
      Optional<Boolean> calls) {
    double free = truth.freeChlorineMgL();
    timeS += stepS;
    inBandS += band.holds(free) ? stepS : 0;
    belowOneS += free < 1 ? stepS : 0;
    belowSanitisingS += free < SANITISING_SHARE * truth.cyanuricAcidMgL() ? stepS : 0;
    aboveTenS += free > 10 && !superchlorinating ? stepS : 0;
    highestMgL = StrictMath.max(highestMgL, free);
    fedG = truth.chlorineGivenG();
    switchings += chlorineOn && !on ? 1 : 0;
    on = chlorineOn;
    estimate.ifPresent(e -> compare(stepS, free, e));
    calls.ifPresent(c -> listen(stepS, free, c));
    if (daytime(truth.unixTimeS())) {
      dayS += stepS;
      dayInBandS += band.holds(free) ? stepS : 0;
      dayBelowOneS += free < 1 ? stepS : 0;
    }
  }

  private boolean daytime(double unixTimeS) {
    double days = (unixTimeS - localMidnightUnixS) / SeasonSettings.DAY_S;
    double hour = 24 * (days - StrictMath.floor(days));
    return hour >= Score.Daytime.FROM_HOUR && hour < Score.Daytime.UNTIL_HOUR;
  }

  private void listen(double stepS, double freeMgL, boolean calls) {
    alarms = true;
    silentS = freeMgL < STARVED_MG_L && !calls ? silentS + stepS : 0;
    longestSilentS = StrictMath.max(longestSilentS, silentS);
  }

  private void compare(double stepS, double freeMgL, Estimate estimate) {
    double error = estimate.freeChlorineMgL() - freeMgL;
    estimatedS += stepS;
    squaredErrorS += error * error * stepS;
    coveredS += StrictMath.abs(error) <= 2 * estimate.freeChlorineSdMgL() ? stepS : 0;
  }

  /** The score without the comparison with the clairvoyant: those figures are 0 here. */
  Score score() {
    return new Score(
        100 * inBandS / timeS,
        0,
        100 * belowOneS / timeS,
        100 * belowSanitisingS / timeS,
        aboveTenS / 3600,
        highestMgL,
        fedG,
        0,
        switchings / (timeS / SeasonSettings.DAY_S),
        tests,
        new Score.Daytime(100 * dayInBandS / dayS, 0, 100 * dayBelowOneS / dayS),
        alarms ? longestSilentS / 3600 : null,
        estimatedS > 0 ? StrictMath.sqrt(squaredErrorS / estimatedS) : null,
        estimatedS > 0 ? 100 * coveredS / estimatedS : null);
  }
}
