package limnostat.scan;

/** What a history drives: the scan, or one of which something was taken away. */
@FunctionalInterface
interface Step {
  ScanOutcome step(ScanSettings settings, ScanState state, ScanInputs in);
}
