package limnostat.control;

/** Who decides the duty. */
public enum Mode {
  /** The control law. */
  AUTO("auto"),
  /** A person, within all limits and interlocks. */
  MANUAL("manual"),
  /** Nobody: chlorine and acid are inhibited. */
  OFF("off");

  private final String key;

  Mode(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }
}
