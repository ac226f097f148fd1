package limnostat.season;

/** What may be made perfect, to see what its faults cost. */
public enum Perfect {
  /** The test kit: no noise, no bias, no steps. */
  KIT,
  /** The ORP electrode: nominal level and slope, neither drift nor fouling. */
  ELECTRODE,
  /** What is configured: volume, stabiliser and output are the true ones. */
  CONFIGURED
}
