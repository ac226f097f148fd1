package limnostat.plant;

import java.util.Random;

/**
 * The result of a person's test with a kit.
 *
 * @param freeChlorineMgL mg/L
 * @param combinedChlorineMgL mg/L
 * @param ph pH
 * @param totalAlkalinityMgL mg/L as CaCO3
 * @param cyanuricAcidMgL mg/L
 * @param saltMgL mg/L
 */
public record WaterTest(
    double freeChlorineMgL,
    double combinedChlorineMgL,
    double ph,
    double totalAlkalinityMgL,
    double cyanuricAcidMgL,
    double saltMgL) {

  /** The errors of drop kits and strips, as standard deviations [practice]. */
  static WaterTest of(Truth truth, Random random) {
    return new WaterTest(
        found(truth.freeChlorineMgL(), 0.2, 0.10, random),
        found(truth.combinedChlorineMgL(), 0.1, 0.10, random),
        found(truth.ph(), 0.1, 0, random),
        found(truth.totalAlkalinityMgL(), 5, 0.05, random),
        found(truth.cyanuricAcidMgL(), 5, 0.10, random),
        found(truth.saltMgL(), 100, 0.05, random));
  }

  private static double found(double value, double sd, double sdShare, Random random) {
    double error = StrictMath.max(sd, sdShare * value) * random.nextGaussian();
    return StrictMath.max(0, value + error);
  }
}
