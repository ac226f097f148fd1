package limnostat.season;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.SplittableRandom;
import limnostat.plant.Truth;

/**
 * An owner's test kit, and how often the owner tests stabiliser with it.
 *
 * @param seed seed for its errors; the errors within one hour are the same for every contestant
 * @param noiseShare scatter: at 1 it is 0.2 mg/L or 10 % of free chlorine, 0.1 of pH, and 5 mg/L or
 *     10 % of stabiliser, as standard deviations [practice]; at 0 there is none
 * @param biasFraction how much too high it reads free chlorine, as a share
 * @param stabiliserBiasFraction how much too high it reads stabiliser, as a share
 * @param stepMgL resolution of its colour scale for free chlorine, mg/L; 0: continuous
 * @param stabiliserShare share of the tests that include stabiliser
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
    // Seeded by the hour, so that the step between scans shifts no draw. Random itself gives
    // similar first values for neighbouring seeds.
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
