package limnostat.scan;

/**
 * The wall clock as it enters a scan.
 *
 * @param unixTimeS Unix s
 * @param clockTrusted whether it is believed
 */
record Now(double unixTimeS, boolean clockTrusted) {}
