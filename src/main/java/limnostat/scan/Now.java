package limnostat.scan;

/**
 * The wall clock as it enters a scan.
 *
 * @param unixTimeS Unix s
 * @param clockTrusted whether it is trusted
 */
record Now(double unixTimeS, boolean clockTrusted) {}
