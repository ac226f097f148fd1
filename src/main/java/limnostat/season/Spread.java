package limnostat.season;

/** How far the pools differ from each other, and from the configuration. */
public enum Spread {
  /**
   * The configuration is true within a few per cent, the electrode is sound, there is a test every
   * week.
   */
  NEAR,
  /** All the differences between real pools; the configuration is inaccurate. */
  WIDE,
  /** Wide, plus phenomena that the program's filter does not model: {@link Family}. */
  STRANGE
}
