package limnostat.control;

/**
 * Where the control law stands, as people are told.
 *
 * @param rung the rung that has settled
 * @param differsS for how long the law has stood on another, s
 * @param unsure for how long ORP alone has had to do
 */
public record Ladder(Rung rung, double differsS, Lasting unsure) {
  /** Nothing is fed before the first scan with flow. */
  public static final Ladder START = new Ladder(Rung.NONE, 0, Lasting.NOT);

  /** A change counts once it has lasted this long, s: one bad sample is held over. */
  private static final double SETTLE_S = 60;

  /**
   * @param now what the law stands on in this scan
   */
  Ladder step(Rung now, double elapsedS) {
    double differs = now == rung ? 0 : differsS + Lasting.seenS(elapsedS);
    // A person's choice of mode and the end of the fallback are no flicker.
    boolean settled = now == Rung.NONE || rung == Rung.NONE || differs >= SETTLE_S;
    Rung next = settled ? now : rung;
    return new Ladder(
        next,
        settled ? 0 : differs,
        switch (next) {
          case PLAN -> unsure.step(false, elapsedS);
          case ORP_ALONE -> unsure.step(true, elapsedS);
          // There is nothing to tell by; what is out has an alarm of its own.
          case LEARNED_DEMAND, NONE -> unsure;
        });
  }

  /** Whether the estimate has been too unsure to plan by for so long that a person should know. */
  public boolean longUnsure() {
    return rung == Rung.ORP_ALONE && unsure.enough();
  }
}
