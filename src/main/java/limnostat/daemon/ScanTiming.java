package limnostat.daemon;

import java.util.Locale;
import java.util.Optional;

/** How punctual the scans are. Written by the scan thread, read by any thread. */
final class ScanTiming {
  private final double lateS;
  private final double longS;
  private volatile long scans;
  private volatile long late;
  private volatile double worstLatenessS;
  private volatile double worstDurationS;
  private volatile boolean overran;
  private volatile long overruns;

  /**
   * @param lateS a scan that begins later than this is late, s
   * @param longS a scan that takes longer than this is too long, s
   */
  ScanTiming(double lateS, double longS) {
    this.lateS = lateS;
    this.longS = longS;
  }

  /**
   * @return a warning the first time, and then whenever a scan is more than twice as late as the
   *     worst before
   */
  @SuppressWarnings("NonAtomicVolatileUpdate") // one writer
  Optional<String> scanned(long latenessNs, long durationNs) {
    scans++;
    double latenessS = latenessNs / 1e9;
    worstDurationS = Math.max(worstDurationS, durationNs / 1e9);
    overran = latenessS > lateS || durationNs / 1e9 > longS;
    if (overran) {
      overruns++;
    }
    boolean tell = latenessS > lateS && (late == 0 || latenessS > 2 * worstLatenessS);
    if (latenessS > lateS) {
      late++;
    }
    worstLatenessS = Math.max(worstLatenessS, latenessS);
    return tell
        ? Optional.of(
            String.format(
                Locale.ROOT, "scan %d began %.1f s late: machine too busy", scans, latenessS))
        : Optional.empty();
  }

  long scans() {
    return scans;
  }

  /** Scans that began later than the limit. */
  long late() {
    return late;
  }

  /** Whether the last scan began late or took too long. */
  boolean overran() {
    return overran;
  }

  /** Scans that began late or took too long. */
  long overruns() {
    return overruns;
  }

  double worstLatenessS() {
    return worstLatenessS;
  }

  double worstDurationS() {
    return worstDurationS;
  }

  /** For the log. */
  String summary() {
    return String.format(
        Locale.ROOT,
        "%d scans, %d of them late; the worst began %.3f s late, the longest took %.3f s",
        scans,
        late,
        worstLatenessS,
        worstDurationS);
  }
}
