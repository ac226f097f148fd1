package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * What a person's test of each thing in the slow account is off by: so much, or this share,
 * whichever is more (common practice, no source).
 */
enum TestError {
  STABILISER(10, 0.15),
  SALT(200, 0.1),
  CALCIUM_HARDNESS(25, 0.1),
  TOTAL_ALKALINITY(10, 0.1);

  private final double sdMgL;
  private final double sdShare;

  TestError(double sdMgL, double sdShare) {
    this.sdMgL = sdMgL;
    this.sdShare = sdShare;
  }

  private double sdMgL(double readMgL) {
    return Math.max(sdMgL, sdShare * readMgL);
  }

  /** To begin with: the file's figure counts as a test's. */
  Dissolved first(OptionalDouble configured, Dissolved otherwise) {
    return configured.isPresent()
        ? new Dissolved(configured.getAsDouble(), sdMgL(configured.getAsDouble()), 0)
        : otherwise;
  }

  /** What is known after a test; the same as before where it does not tell. */
  Dissolved tested(Dissolved before, OptionalDouble read) {
    return read.isPresent() ? before.tested(read.getAsDouble(), sdMgL(read.getAsDouble())) : before;
  }
}
