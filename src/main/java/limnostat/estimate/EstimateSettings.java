package limnostat.estimate;

/**
 * What the estimator is told of the pool.
 *
 * @param volumeM3 water volume, m³
 * @param latitudeDeg north positive
 * @param longitudeDeg east positive
 * @param slow what changes over weeks
 * @param demandMgLDay first guess of the daily demand, mg/L a day
 * @param freeChlorineMgL first guess of free chlorine, mg/L
 * @param kit what free chlorine is tested with, where a test does not say
 */
public record EstimateSettings(
    double volumeM3,
    double latitudeDeg,
    double longitudeDeg,
    SlowSettings slow,
    double demandMgLDay,
    double freeChlorineMgL,
    TestKit kit) {

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
