package limnostat.control;

/**
 * The control level as it is reported.
 *
 * @param settled the level that has settled
 * @param differsS for how long the law has been at another level, s
 */
public record SettledLevel(ControlLevel settled, double differsS) {
  /** Nothing is fed before the first scan with flow. */
  public static final SettledLevel START = new SettledLevel(ControlLevel.NONE, 0);

  /**
   * A change counts once it has lasted this long, s: the last good value covers for one bad sample.
   */
  private static final double SETTLE_S = 60;

  /**
   * @param now the control level in this scan
   */
  SettledLevel step(ControlLevel now, double elapsedS) {
    double differs = now == settled ? 0 : differsS + LeakyTimer.seenS(elapsedS);
    // A change of mode is a person's choice, so it counts at once.
    boolean moves = now == ControlLevel.NONE || settled == ControlLevel.NONE || differs >= SETTLE_S;
    return new SettledLevel(moves ? now : settled, moves ? 0 : differs);
  }
}
