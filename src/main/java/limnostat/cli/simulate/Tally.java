package limnostat.cli.simulate;

import java.util.Optional;
import limnostat.estimate.Estimate;
import limnostat.plant.Truth;

/** Keeps count over one season of one contestant. */
final class Tally {
  /** Least share of the stabiliser that free chlorine must be (common practice, no source). */
  private static final double SANITISING_SHARE = 0.05;

  private final Band band;
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

  Tally(Band band) {
    this.band = band;
  }

  void tested() {
    tests++;
  }

  /**
   * A step has passed.
   *
   * @param truth at its end
   * @param chlorineOn whether chlorine was on in it
   * @param estimate as of its begin
   */
  void passed(
      double stepS,
      Truth truth,
      boolean chlorineOn,
      boolean superchlorinating,
      Optional<Estimate> estimate) {
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
  }

  private void compare(double stepS, double freeMgL, Estimate estimate) {
    double error = estimate.freeChlorineMgL() - freeMgL;
    estimatedS += stepS;
    squaredErrorS += error * error * stepS;
    coveredS += StrictMath.abs(error) <= 2 * estimate.freeChlorineSdMgL() ? stepS : 0;
  }

  /** Against the clairvoyant it is not yet measured: both such figures are 0. */
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
        estimatedS > 0 ? StrictMath.sqrt(squaredErrorS / estimatedS) : null,
        estimatedS > 0 ? 100 * coveredS / estimatedS : null);
  }
}
