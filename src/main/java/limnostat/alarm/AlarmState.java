package limnostat.alarm;

/**
 * State of an alarm, by the state diagram of ISA-18.2 (clause and letters from memory). The
 * standard's two latched states share a word; what tells them apart is {@link #acknowledged}.
 */
public enum AlarmState {
  /** A: no condition, nothing to acknowledge. */
  NORMAL("normal", true),
  /** B: the condition is there and nobody has seen it. */
  UNACKNOWLEDGED("unacknowledged", false),
  /** C: it is there and a person has seen it. */
  ACKNOWLEDGED("acknowledged", true),
  /** D: it came and went and nobody has seen it. */
  RETURNED_UNACKNOWLEDGED("returned unacknowledged", false),
  /** E: the condition is gone, its effect waits for a reset, and nobody has seen it. */
  LATCHED_UNACKNOWLEDGED("latched", false),
  /** F: the condition is gone, its effect waits for a reset. */
  LATCHED("latched", true),
  /** G: a person has put it aside for a time. */
  SHELVED("shelved", true),
  /** H: by a stated row of {@link Suppression} it has nothing to say now. */
  SUPPRESSED("suppressed", true),
  /** I: the installer's file has taken it out. */
  OUT_OF_SERVICE("out of service", true);

  private final String term;
  private final boolean acknowledged;

  AlarmState(String term, boolean acknowledged) {
    this.term = term;
    this.acknowledged = acknowledged;
  }

  /** The standard's word. */
  public String term() {
    return term;
  }

  /** Whether nobody is asked to look at it. */
  public boolean acknowledged() {
    return acknowledged;
  }
}
