package limnostat.scan;

/** Something that comes and goes in a history, as two kinds of events. */
final class Turn {
  private final String begins;
  private final String ends;
  private final double beginsOneIn;
  private final double endsOneIn;
  private boolean on;

  /**
   * @param beginsOneIn it begins on one scan in so many
   * @param endsOneIn and ends likewise
   */
  Turn(String what, double beginsOneIn, double endsOneIn) {
    begins = what + " begins";
    ends = what + " ends";
    this.beginsOneIn = beginsOneIn;
    this.endsOneIn = endsOneIn;
  }

  /** Whether it is on, on this scan. */
  boolean next(Chance chance) {
    on = chance.event(on ? ends : begins, 1 / (on ? endsOneIn : beginsOneIn)) != on;
    return on;
  }

  void end() {
    on = false;
  }
}
