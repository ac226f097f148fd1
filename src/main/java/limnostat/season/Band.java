package limnostat.season;

/**
 * The band for free chlorine: the target ± 1 mg/L, but never below 2.5 or above 5 mg/L [judgement].
 *
 * @param lowMgL mg/L
 * @param highMgL mg/L
 */
record Band(double lowMgL, double highMgL) {
  static Band around(double targetMgL) {
    return new Band(StrictMath.max(2.5, targetMgL - 1), StrictMath.min(5, targetMgL + 1));
  }

  boolean holds(double freeChlorineMgL) {
    return freeChlorineMgL >= lowMgL && freeChlorineMgL <= highMgL;
  }
}
