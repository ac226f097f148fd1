package limnostat.actuate;

/** The outputs that can do harm. Each has its own modulator, dose account and interlocks. */
public enum Output {
  CHLORINE("chlorine"),
  ACID("acid");

  private final String key;

  Output(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }
}
