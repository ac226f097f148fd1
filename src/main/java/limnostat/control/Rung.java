package limnostat.control;

/** What the control law stands on, from the best down; the last one feeds nothing. */
public enum Rung {
  /** A plan of the day by an estimate that is sure enough. */
  PLAN("plan"),
  /** ORP alone, as the estimate is not sure. */
  ORP_ALONE("orp_alone"),
  /** The learned demand, as a probe is out. */
  LEARNED_DEMAND("learned_demand"),
  /** Nothing: the mode is not auto, or the learned demand has been fed for long enough. */
  NONE("none");

  private final String key;

  Rung(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }

  /** The one further down. */
  static Rung lower(Rung one, Rung other) {
    return one.compareTo(other) >= 0 ? one : other;
  }
}
