package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * What is configured of the pool, for the estimator.
 *
 * @param volumeM3 water volume, m³
 * @param latitudeDeg north positive
 * @param longitudeDeg east positive
 * @param slow what changes over weeks
 * @param demandMgLDay first guess of the daily demand, mg/L a day
 * @param freeChlorineMgL first guess of free chlorine, mg/L
 * @param kit what free chlorine is tested with, where a test does not say
 * @param labelGAh chlorine that a salt cell makes by its label, g an ampere-hour; empty: its
 *     current is not read, or the one that belongs to its label is not known
 */
public record EstimateSettings(
    double volumeM3,
    double latitudeDeg,
    double longitudeDeg,
    SlowSettings slow,
    double demandMgLDay,
    double freeChlorineMgL,
    TestKit kit,
    OptionalDouble labelGAh) {

  /** The same without a cell whose current is read. */
  public EstimateSettings(
      double volumeM3,
      double latitudeDeg,
      double longitudeDeg,
      SlowSettings slow,
      double demandMgLDay,
      double freeChlorineMgL,
      TestKit kit) {
    this(
        volumeM3,
        latitudeDeg,
        longitudeDeg,
        slow,
        demandMgLDay,
        freeChlorineMgL,
        kit,
        OptionalDouble.empty());
  }

  /** Where nobody has said what is tested with. */
  public EstimateSettings(
      double volumeM3,
      double latitudeDeg,
      double longitudeDeg,
      SlowSettings slow,
      double demandMgLDay,
      double freeChlorineMgL) {
    this(
        volumeM3,
        latitudeDeg,
        longitudeDeg,
        slow,
        demandMgLDay,
        freeChlorineMgL,
        TestKit.UNSPECIFIED);
  }
}
