package limnostat.scan;

import limnostat.control.Mode;
import limnostat.safety.HardBounds;

/**
 * When manual mode ends, if an end was requested, and what it returns to.
 *
 * @param leftS time left, s; 0: no end
 * @param mode the mode before
 * @param duty duty of that mode, if it was manual too, 0–1
 */
public record ManualEnd(double leftS, Mode mode, double duty) {
  public static final ManualEnd NONE = new ManualEnd(0, Mode.AUTO, 0);

  /** Data read back from a ledger is validated like any untrusted input. */
  public ManualEnd {
    if (!(leftS >= 0 && leftS <= HardBounds.MANUAL_MAX_S) || !(duty >= 0 && duty <= 1)) {
      throw new IllegalArgumentException("manual for " + leftS + " s, then a duty of " + duty);
    }
  }

  public boolean running() {
    return leftS > 0;
  }

  /** Advances time; at the end the previous mode is restored. */
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

  /** Applies the installer's limits after a restart. */
  ManualEnd within(double mostS, double mostDuty) {
    return new ManualEnd(Math.min(leftS, mostS), mode, Math.min(duty, mostDuty));
  }
}
