package limnostat.season;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.SplittableRandom;
import limnostat.plant.Truth;

/**
 * An owner's test kit and habits with it.
 *
 * @param seed of its errors; those of one hour are the same for every contestant
 * @param noiseShare how far it scatters: at 1 by 0.2 mg/L or 10 % of free chlorine, 0.1 of pH, 5
 *     mg/L or 10 % of stabiliser, as standard deviations [practice]; at 0 not at all
 * @param biasFraction what it reads too much of free chlorine, as a share
 * @param stabiliserBiasFraction the same of stabiliser
 * @param stepMgL steps of its colour scale for free chlorine, mg/L; 0: none
 * @param stabiliserShare share of the tests in which stabiliser is tested too
 */
record Kit(
    long seed,
    double noiseShare,
    double biasFraction,
    double stabiliserBiasFraction,
    double stepMgL,
    double stabiliserShare)
    implements TestKit {

  Kit perfect() {
    return new Kit(seed, 0, 0, 0, 0, stabiliserShare);
  }

  @Override
  public KitTest test(Truth truth) {
    // By the hour, so that the step between scans shifts no draw; neighbouring seeds of Random
    // itself begin alike.
    long hour = (long) (truth.unixTimeS() / 3600);
    Random random = new Random(new SplittableRandom(seed ^ hour).nextLong());
    double free = found(truth.freeChlorineMgL() * (1 + biasFraction), 0.2, 0.1, random);
    double ph = found(truth.ph(), 0.1, 0, random);
    double stabiliser =
        found(truth.cyanuricAcidMgL() * (1 + stabiliserBiasFraction), 5, 0.1, random);
    boolean tellsStabiliser = random.nextDouble() < stabiliserShare;
    return new KitTest(
        stepMgL > 0 ? stepMgL * StrictMath.rint(free / stepMgL) : free,
        ph,
        tellsStabiliser ? OptionalDouble.of(stabiliser) : OptionalDouble.empty());
  }

  private double found(double value, double sd, double sdShare, Random random) {
    double scatter = StrictMath.max(sd, sdShare * value) * random.nextGaussian();
    return StrictMath.max(0, value + noiseShare * scatter);
  }
}
