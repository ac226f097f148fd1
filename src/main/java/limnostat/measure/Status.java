package limnostat.measure;

/** Status of a signal by NAMUR NE 107, from best to worst. */
public enum Status {
  GOOD("good"),
  MAINTENANCE_REQUIRED("maintenance required"),
  OUT_OF_SPECIFICATION("out of specification"),
  FUNCTION_CHECK("function check"),
  FAILURE("failure");

  private final String term;

  Status(String term) {
    this.term = term;
  }

  /** The worse of the two. */
  Status orWorse(Status other) {
    return compareTo(other) >= 0 ? this : other;
  }

  /** The standard's term. */
  public String term() {
    return term;
  }
}
