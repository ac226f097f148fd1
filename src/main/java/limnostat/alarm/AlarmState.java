package limnostat.alarm;

/** State of an alarm by ISA-18.2. */
public enum AlarmState {
  NORMAL("normal"),
  UNACKNOWLEDGED("unacknowledged"),
  ACKNOWLEDGED("acknowledged"),
  RETURNED_UNACKNOWLEDGED("returned unacknowledged");

  private final String term;

  AlarmState(String term) {
    this.term = term;
  }

  /** The standard's word. */
  public String term() {
    return term;
  }
}
