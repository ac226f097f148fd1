package limnostat.alarm;

/**
 * State of an alarm, by the state diagram of ISA-18.2 (clause and letters from memory). The
 * standard's two latched states share a term; {@link #acknowledged} distinguishes them.
 */
public enum AlarmState {
  /** A: no condition, nothing to acknowledge. */
  NORMAL("normal", true),
  /** B: the condition is present and nobody has acknowledged it. */
  UNACKNOWLEDGED("unacknowledged", false),
  /** C: the condition is present and a person has acknowledged it. */
  ACKNOWLEDGED("acknowledged", true),
  /** D: the condition came and went, and nobody has acknowledged it. */
  RETURNED_UNACKNOWLEDGED("returned unacknowledged", false),
  /** E: the condition is gone, its effect waits for a reset, and nobody has acknowledged it. */
  LATCHED_UNACKNOWLEDGED("latched", false),
  /** F: the condition is gone, its effect waits for a reset. */
  LATCHED("latched", true),
  /** G: a person has silenced it for a time. */
  SHELVED("shelved", true),
  /** H: a row of {@link Suppression} suppresses it now. */
  SUPPRESSED("suppressed", true),
  /** I: the installer's file has taken it out of service. */
  OUT_OF_SERVICE("out of service", true);

  private final String term;
  private final boolean acknowledged;

  AlarmState(String term, boolean acknowledged) {
    this.term = term;
    this.acknowledged = acknowledged;
  }

  /** The standard's term. */
  public String term() {
    return term;
  }

  /** Whether nobody has to acknowledge it. */
  public boolean acknowledged() {
    return acknowledged;
  }
}
