package limnostat.cli;

import limnostat.scan.ScanEvent;

/**
 * What must survive a power cut a second later, and reach the broker however long it is away: what
 * a person decided, alarms, a day's total.
 */
final class Lasting {
  private Lasting() {}

  static boolean is(ScanEvent event) {
    return event instanceof ScanEvent.Accepted
        || event instanceof ScanEvent.SetpointChanged
        || event instanceof ScanEvent.AlarmChanged
        || event instanceof ScanEvent.ModeChanged
        || event instanceof ScanEvent.DayEnded
        || event instanceof ScanEvent.AdditionEntered
        || event instanceof ScanEvent.AdditionUndone
        || event instanceof ScanEvent.AdditionSuspected
        || (event instanceof ScanEvent.Tripped tripped && tripped.cause().latching());
  }
}
