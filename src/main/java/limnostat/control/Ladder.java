package limnostat.control;

/**
 * Where the control law stands, as people are told.
 *
 * @param rung the rung that has settled
 * @param differsS for how long the law has stood on another, s
 */
public record Ladder(Rung rung, double differsS) {
  /** Nothing is fed before the first scan with flow. */
  public static final Ladder START = new Ladder(Rung.NONE, 0);

  /** A change counts once it has lasted this long, s: one bad sample is held over. */
  private static final double SETTLE_S = 60;

  /**
   * @param now what the law stands on in this scan
   */
  Ladder step(Rung now, double elapsedS) {
    double differs = now == rung ? 0 : differsS + LeakyTimer.seenS(elapsedS);
    // A person's choice of mode is no flicker.
    boolean settled = now == Rung.NONE || rung == Rung.NONE || differs >= SETTLE_S;
    return new Ladder(settled ? now : rung, settled ? 0 : differs);
  }
}
