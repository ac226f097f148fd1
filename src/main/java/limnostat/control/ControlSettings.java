package limnostat.control;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;

/**
 * Settings of the control law.
 *
 * @param freeChlorineTargetMgL target, mg/L
 * @param phTarget target pH; acid lowers pH towards it, nothing raises it
 * @param zone time zone of the windows
 * @param pumpWindows when the circulation pump is asked to run, local time; empty: always
 * @param bathing when people may bathe and the target applies, local time; empty: always
 */
public record ControlSettings(
    double freeChlorineTargetMgL,
    double phTarget,
    ZoneId zone,
    List<PumpWindow> pumpWindows,
    List<PumpWindow> bathing) {

  private static final int DAY_S = 86400;

  /** Default bathing hours, nine to nine (engineering judgement). */
  public static final List<PumpWindow> USUAL_BATHING = List.of(new PumpWindow(9 * 3600, 21 * 3600));

  /** With the usual bathing hours. */
  public ControlSettings(
      double freeChlorineTargetMgL, double phTarget, ZoneId zone, List<PumpWindow> pumpWindows) {
    this(freeChlorineTargetMgL, phTarget, zone, pumpWindows, USUAL_BATHING);
  }

  /**
   * A daily window of local time; one that ends before it starts runs over midnight.
   *
   * @param startS seconds after local midnight
   * @param endS seconds after local midnight
   */
  public record PumpWindow(int startS, int endS) {
    boolean contains(long secondOfDay) {
      return startS <= endS
          ? secondOfDay >= startS && secondOfDay < endS
          : secondOfDay >= startS || secondOfDay < endS;
    }

    int lengthS() {
      return Math.floorMod(endS - startS - 1, DAY_S) + 1;
    }
  }

  /** Whether the pump is wanted, by local wall time. */
  public boolean pumpWanted(double unixTimeS) {
    return within(pumpWindows, unixTimeS);
  }

  /** Whether people may bathe, by local wall time. */
  public boolean bathing(double unixTimeS) {
    return within(bathing, unixTimeS);
  }

  private boolean within(List<PumpWindow> windows, double unixTimeS) {
    if (windows.isEmpty()) {
      return true;
    }
    long secondOfDay = Math.floorMod(localS(unixTimeS), DAY_S);
    for (PumpWindow window : windows) {
      if (window.contains(secondOfDay)) {
        return true;
      }
    }
    return false;
  }

  /** The local date, days since 1970-01-01. */
  public long epochDay(double unixTimeS) {
    return Math.floorDiv(localS(unixTimeS), DAY_S);
  }

  private long localS(double unixTimeS) {
    Instant now = Instant.ofEpochSecond((long) StrictMath.floor(unixTimeS));
    return now.getEpochSecond() + zone.getRules().getOffset(now).getTotalSeconds();
  }

  /** Seconds per day in which the pump is asked to run. */
  public double pumpS() {
    return pumpWindows.isEmpty()
        ? DAY_S
        : Math.min(DAY_S, pumpWindows.stream().mapToInt(PumpWindow::lengthS).sum());
  }
}
