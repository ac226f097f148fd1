package limnostat.control;

/**
 * How long a condition has lasted. It is reported once it has lasted for a day. The timer drains
 * more slowly than it fills, so that a condition that comes and goes is still reported in the end.
 *
 * @param forS time so far, s; at most a day
 */
public record LeakyTimer(double forS) {
  public static final LeakyTimer NOT = new LeakyTimer(0);

  private static final double DAY_S = 86400;

  /** The time between two scans counts up to this, s: nothing was observed during an outage. */
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
