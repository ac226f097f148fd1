package limnostat.control;

/**
 * For how long something has held that is worth telling once it has held for a day. It drains
 * slower than it fills, so that what comes and goes cannot put the telling off for ever.
 *
 * @param forS time so far, s; at most a day
 */
public record LeakyTimer(double forS) {
  public static final LeakyTimer NOT = new LeakyTimer(0);

  private static final double DAY_S = 86400;

  /** A step between scans counts for no more than this, s: nobody looked during an outage. */
  private static final double SEEN_MAX_S = 60;

  private static final double DRAIN = 0.25;

  LeakyTimer step(boolean holds, double elapsedS) {
    double seenS = seenS(elapsedS);
    return new LeakyTimer(
        holds ? Math.min(DAY_S, forS + seenS) : Math.max(0, forS - DRAIN * seenS));
  }

  boolean enough() {
    return forS >= DAY_S;
  }

  static double seenS(double elapsedS) {
    return Math.min(SEEN_MAX_S, elapsedS);
  }
}
