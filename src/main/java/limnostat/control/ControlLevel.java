package limnostat.control;

/** What the control law is based on, from best to worst. The last one feeds nothing. */
public enum ControlLevel {
  /** A plan of the day by the estimate, however uncertain. */
  PLAN("plan"),
  /** The learned demand within the blind budget: nothing trustworthy measures chlorine. */
  LEARNED_DEMAND("learned_demand"),
  /** Nothing: the mode is not auto. */
  NONE("none");

  private final String key;

  ControlLevel(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }

  /** The worse of the two. */
  static ControlLevel lower(ControlLevel one, ControlLevel other) {
    return one.compareTo(other) >= 0 ? one : other;
  }
}
