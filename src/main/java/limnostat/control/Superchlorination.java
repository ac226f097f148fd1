package limnostat.control;

import limnostat.estimate.Estimate;

/**
 * A raise of free chlorine to a level for a time, and the re-entry hold that follows it: nobody
 * bathes until both the time has passed and the level has come down.
 *
 * @param levelMgL level to raise to, mg/L; 0: none is running
 * @param leftS time left, s
 * @param reentry whether the re-entry hold is active
 * @param sinceEndS time since the raise ended, s
 */
public record Superchlorination(double levelMgL, double leftS, boolean reentry, double sinceEndS) {
  public static final Superchlorination NONE = new Superchlorination(0, 0, false, 0);

  /** Wait after chlorine: about 6 h (common practice, no source). */
  public static final double REENTRY_S = 6 * 3600.0;

  /** Free chlorine above which nobody bathes, mg/L: label limit of 4 mg/L (from memory). */
  public static final double BATHING_LIMIT_MG_L = 4;

  public boolean running() {
    return levelMgL > 0;
  }

  public static Superchlorination begin(double levelMgL, double maxS) {
    return new Superchlorination(levelMgL, maxS, true, 0);
  }

  public Superchlorination stop() {
    return new Superchlorination(0, 0, reentry, 0);
  }

  /** The same, no longer than the limit, which may have been lowered since. */
  Superchlorination within(double maxS) {
    return leftS > maxS ? new Superchlorination(levelMgL, maxS, reentry, sinceEndS) : this;
  }

  Superchlorination step(Estimate estimate, double elapsedS) {
    if (running()) {
      return leftS > elapsedS ? new Superchlorination(levelMgL, leftS - elapsedS, true, 0) : stop();
    }
    if (!reentry) {
      return NONE;
    }
    double since = sinceEndS + elapsedS;
    double likelyMostMgL = estimate.freeChlorineMgL() + estimate.freeChlorineSdMgL();
    boolean over = since >= REENTRY_S && likelyMostMgL <= BATHING_LIMIT_MG_L;
    return over ? NONE : new Superchlorination(0, 0, true, since);
  }
}
