package limnostat.scan;

import limnostat.control.Mode;
import limnostat.safety.HardBounds;

/**
 * When manual is over, where that was asked for, and what it returns to.
 *
 * @param leftS time left, s; 0: it has no end
 * @param mode the mode before
 * @param duty its duty, where that was manual too, 0–1
 */
public record ManualEnd(double leftS, Mode mode, double duty) {
  public static final ManualEnd NONE = new ManualEnd(0, Mode.AUTO, 0);

  /** What is read back from a ledger is checked as a stranger's would be. */
  public ManualEnd {
    if (!(leftS >= 0 && leftS <= HardBounds.MANUAL_MAX_S) || !(duty >= 0 && duty <= 1)) {
      throw new IllegalArgumentException("manual for " + leftS + " s, then a duty of " + duty);
    }
  }

  public boolean running() {
    return leftS > 0;
  }

  /** Time passes; at its end the mode before is back. */
  static ScanState passed(ScanState s, double elapsedS) {
    ManualEnd end = s.asked().manual();
    if (!end.running()) {
      return s;
    }
    if (elapsedS < end.leftS) {
      return s.withAsked(s.asked().with(new ManualEnd(end.leftS - elapsedS, end.mode, end.duty)));
    }
    return s.withControl(s.control().withMode(end.mode, end.duty)).withAsked(s.asked().with(NONE));
  }

  /** As the installer's limits are after a restart. */
  ManualEnd within(double mostS, double mostDuty) {
    return new ManualEnd(Math.min(leftS, mostS), mode, Math.min(duty, mostDuty));
  }
}
