package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * The pool's configuration, for the estimator.
 *
 * @param volumeM3 water volume, m³
 * @param latitudeDeg north positive
 * @param longitudeDeg east positive
 * @param slow settings of what changes over weeks
 * @param demandMgLDay first guess of the daily demand, mg/L per day
 * @param freeChlorineMgL first guess of free chlorine, mg/L
 * @param kit the kit that free chlorine is tested with, unless a test says otherwise
 * @param labelGAh chlorine output of a salt cell by its label, g per ampere-hour; empty: the
 *     current is not read, or the current for the label's output is not known
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

  /** Without a cell whose current is read. */
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

  /** For when no test kit is configured. */
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
