package limnostat.control;

/**
 * Where the control law stands, as people are told.
 *
 * @param settled the level that has settled
 * @param differsS for how long the law has stood on another, s
 */
public record SettledLevel(ControlLevel settled, double differsS) {
  /** Nothing is fed before the first scan with flow. */
  public static final SettledLevel START = new SettledLevel(ControlLevel.NONE, 0);

  /** A change counts once it has lasted this long, s: one bad sample is held over. */
  private static final double SETTLE_S = 60;

  /**
   * @param now what the law stands on in this scan
   */
  SettledLevel step(ControlLevel now, double elapsedS) {
    double differs = now == settled ? 0 : differsS + LeakyTimer.seenS(elapsedS);
    // A person's choice of mode is no flicker.
    boolean moves = now == ControlLevel.NONE || settled == ControlLevel.NONE || differs >= SETTLE_S;
    return new SettledLevel(moves ? now : settled, moves ? 0 : differs);
  }
}
