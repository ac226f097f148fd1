package limnostat.season;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.SplittableRandom;
import limnostat.plant.Truth;

/**
 * A household test kit and the person who uses it. Each kind of kit has its own errors, and now and
 * then a test goes completely wrong.
 *
 * @param seed seed for its errors; the errors within one hour are the same for every contestant
 * @param scatterShare standard deviation as a share of free chlorine
 * @param biasFraction how much too high it reads free chlorine, as a share
 * @param stepMgL resolution of its scale, mg/L; 0: continuous, or the steps of a strip
 * @param combinedShare share of the combined chlorine that it reads as free
 * @param misreadShare share of the tests that go completely wrong
 * @param stabiliserBiasFraction how much too high it reads stabiliser, as a share
 * @param stabiliserShare share of the tests that include stabiliser
 */
record HouseholdKit(
    long seed,
    Kind kind,
    double scatterShare,
    double biasFraction,
    double stepMgL,
    double combinedShare,
    double misreadShare,
    double stabiliserBiasFraction,
    double stabiliserShare)
    implements TestKit {

  enum Kind {
    DROPS,
    COMPARATOR,
    STRIPS,
    PHOTOMETER
  }

  /** The values printed on the tube of a typical strip, mg/L [practice]. */
  private static final double[] STRIP_MG_L = {0, 0.5, 1, 3, 5, 10};

  /** Upper end of a colour comparator's scale, mg/L [judgement]. */
  private static final double COMPARATOR_TOP_MG_L = 6;

  /** Above this value the dye in a photometer begins to bleach, mg/L [practice]. */
  private static final double BLEACH_MG_L = 10;

  @Override
  public KitTest test(Truth truth) {
    // Seeded by the hour, so that the step between scans shifts no draw. Random itself gives
    // similar first values for neighbouring seeds.
    long hour = (long) (truth.unixTimeS() / 3600);
    Random random = new Random(new SplittableRandom(seed ^ hour).nextLong());
    double seenMgL =
        truth.freeChlorineMgL() * (1 + biasFraction) + combinedShare * truth.combinedChlorineMgL();
    double freeMgL =
        StrictMath.max(
            0,
            seenMgL + StrictMath.max(leastSdMgL(), scatterShare * seenMgL) * random.nextGaussian());
    double shownMgL = shown(misread(freeMgL, random));
    double ph = truth.ph() + phSd() * random.nextGaussian();
    double stabiliserMgL =
        truth.cyanuricAcidMgL() * (1 + stabiliserBiasFraction)
            + StrictMath.max(5, 0.1 * truth.cyanuricAcidMgL()) * random.nextGaussian();
    boolean testsStabiliser = random.nextDouble() < stabiliserShare;
    return new KitTest(
        shownMgL,
        kind == Kind.PHOTOMETER ? ph : 0.2 * StrictMath.rint(ph / 0.2),
        testsStabiliser
            ? OptionalDouble.of(StrictMath.max(0, stabiliserMgL))
            : OptionalDouble.empty());
  }

  /**
   * In one of four wrong tests the reagent is dead or forgotten, and the result is 0 [judgement].
   */
  private double misread(double freeMgL, Random random) {
    boolean wrong = random.nextDouble() < misreadShare;
    boolean nothing = random.nextDouble() < 0.25;
    double factor = 0.3 + 2.2 * random.nextDouble();
    return !wrong ? freeMgL : nothing ? 0 : freeMgL * factor;
  }

  private double shown(double freeMgL) {
    return switch (kind) {
      case DROPS -> stepped(freeMgL);
      case COMPARATOR -> StrictMath.min(COMPARATOR_TOP_MG_L, stepped(freeMgL));
      case STRIPS -> nearest(freeMgL);
      // DPD bleaches: the reading falls again above its range
      case PHOTOMETER ->
          freeMgL <= BLEACH_MG_L
              ? freeMgL
              : BLEACH_MG_L * StrictMath.exp((BLEACH_MG_L - freeMgL) / 5);
    };
  }

  private double stepped(double freeMgL) {
    return stepMgL > 0 ? stepMgL * StrictMath.rint(freeMgL / stepMgL) : freeMgL;
  }

  private static double nearest(double freeMgL) {
    double best = STRIP_MG_L[0];
    for (double pad : STRIP_MG_L) {
      best = StrictMath.abs(pad - freeMgL) < StrictMath.abs(best - freeMgL) ? pad : best;
    }
    return best;
  }

  /** Its scatter even in water without chlorine, mg/L [judgement]. */
  private double leastSdMgL() {
    return switch (kind) {
      case DROPS, STRIPS -> 0.1;
      case COMPARATOR -> 0.15;
      case PHOTOMETER -> 0.04;
    };
  }

  private double phSd() {
    return switch (kind) {
      case DROPS, COMPARATOR -> 0.15;
      case STRIPS -> 0.3;
      case PHOTOMETER -> 0.08;
    };
  }
}
