package limnostat.scan;

/**
 * What the outputs gave since the last scan, by their labels.
 *
 * @param chlorineG g
 * @param acidMl mL
 */
record Given(double chlorineG, double acidMl) {
  static Given in(double seconds, ScanSettings settings, ScanState s) {
    return new Given(
        s.chlorine().given(settings.chlorine().caps(), seconds),
        s.acid().given(settings.acid().caps(), seconds));
  }
}
