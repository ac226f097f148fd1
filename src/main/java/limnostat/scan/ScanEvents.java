package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import limnostat.alarm.Alarms;
import limnostat.control.ControlLevel;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.scan.ScanState.Phase;

/** What happened on a scan, from the states before and after it. */
final class ScanEvents {
  private ScanEvents() {}

  static List<ScanEvent> of(
      List<ScanEvent> commanded,
      ScanState before,
      ScanState after,
      Alarms.Result alarms,
      AlarmDetails details,
      double dtS,
      boolean dayEnded) {
    List<ScanEvent> events = new ArrayList<>(commanded);
    if (before.phase() == Phase.RUNNING && dtS > HardBounds.SCAN_GAP_S) {
      events.add(new ScanEvent.Interrupted(dtS));
    }
    if (before.control().mode() != after.control().mode()) {
      events.add(new ScanEvent.ModeChanged(before.control().mode(), after.control().mode()));
    }
    ControlLevel from = before.control().level().settled();
    ControlLevel to = after.control().level().settled();
    if (from != to) {
      events.add(new ScanEvent.ControlLevelChanged(from, to));
    }
    Set<Cause> was = before.safety().active();
    Set<Cause> now = after.safety().active();
    if (!was.equals(now)) {
      for (Cause cause : Cause.values()) {
        if (was.contains(cause) != now.contains(cause)) {
          events.add(new ScanEvent.Tripped(cause, now.contains(cause)));
        }
      }
    }
    for (Alarms.Transition t : alarms.transitions()) {
      events.add(
          new ScanEvent.AlarmChanged(
              t.alarm(),
              t.from(),
              t.to(),
              details.of(t.alarm()),
              after.annunciator().firstOut().marks(t.alarm()),
              t.heldBack()));
    }
    boolean flood = after.annunciator().flood().on();
    if (before.annunciator().flood().on() != flood) {
      events.add(new ScanEvent.AlarmFlood(flood));
    }
    if (dayEnded) {
      events.add(new ScanEvent.DayEnded(before.totals()));
    }
    return events;
  }
}
