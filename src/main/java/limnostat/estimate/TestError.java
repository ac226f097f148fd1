package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * Standard deviation of a person's test of each item in the slow account: an absolute or a relative
 * one, whichever is larger (common practice, no source).
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

  /** The initial value: the one in the configuration file counts as a test. */
  Dissolved first(OptionalDouble configured, Dissolved otherwise) {
    return configured.isPresent()
        ? new Dissolved(configured.getAsDouble(), sdMgL(configured.getAsDouble()), 0)
        : otherwise;
  }

  /** What is known after a test; unchanged if the test lacks this item. */
  Dissolved tested(Dissolved before, OptionalDouble read) {
    return read.isPresent() ? before.tested(read.getAsDouble(), sdMgL(read.getAsDouble())) : before;
  }
}
