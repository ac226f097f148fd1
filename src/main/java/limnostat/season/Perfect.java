package limnostat.season;

/** What can be made perfect, to see how much its faults cost. */
public enum Perfect {
  /** The test kit: no noise, no bias, no steps. */
  KIT,
  /** The ORP electrode: nominal level and slope, no drift, no fouling. */
  ELECTRODE,
  /** The configuration: volume, stabiliser and output are the true ones. */
  CONFIGURED
}
