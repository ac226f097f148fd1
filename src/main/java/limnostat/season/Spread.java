package limnostat.season;

/** How far the pools differ from each other, and from what the program has configured. */
public enum Spread {
  /** What is configured is true within a few per cent, the electrode is sound, a test a week. */
  NEAR,
  /** All that differs between real pools, and what is configured is off. */
  WIDE,
  /** Wide, and with phenomena that the program's filter does not model: {@link Family}. */
  STRANGE
}
