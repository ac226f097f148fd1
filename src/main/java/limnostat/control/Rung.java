package limnostat.control;

/** What the control law stands on, from the best down; the last one feeds nothing. */
public enum Rung {
  /** A plan of the day by the estimate, whatever its doubt. */
  PLAN("plan"),
  /** The learned demand within the blind budget, as nothing trustworthy measures chlorine. */
  LEARNED_DEMAND("learned_demand"),
  /** Nothing: the mode is not auto. */
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
