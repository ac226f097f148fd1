package limnostat.scan;

import java.util.Optional;
import limnostat.safety.Cause;
import limnostat.wire.AlarmDocument;
import limnostat.wire.DayDocument;
import limnostat.wire.EventDocument;
import limnostat.wire.Sent;
import limnostat.wire.StateDocument;

/**
 * Whatever history brings about, what is sent of it fits the published schemas: events and the
 * state, now and then.
 */
final class SchemaRule implements Rule {
  private static final int STATE_EVERY = 997;
  private static final int EVENT_EVERY = 101;

  private int scans;
  private int events;

  @Override
  public void check(Seen seen) {
    double unixTimeS = Math.max(0, seen.in().unixTimeS());
    if (scans++ % STATE_EVERY == 0) {
      Sent.check("state", StateDocument.of(seen.out(), unixTimeS));
    }
    for (ScanEvent event : seen.out().events()) {
      if (events++ % EVENT_EVERY != 0) {
        continue;
      }
      Sent.check("event", EventDocument.numbered(event, unixTimeS, "1-1"));
      if (event instanceof ScanEvent.Accepted || event instanceof ScanEvent.Refused) {
        Sent.check("result", EventDocument.numbered(event, unixTimeS, "1-1"));
      } else if (event instanceof ScanEvent.DayEnded day) {
        Sent.check("day", DayDocument.of(day.totals(), unixTimeS));
      } else if (event instanceof ScanEvent.AlarmChanged changed) {
        Cause alarm = changed.alarm();
        Optional<String> detail = seen.out().details().of(alarm);
        Sent.check(
            "alarm/" + alarm.id(),
            AlarmDocument.of(
                alarm, AlarmDocument.Shown.of(alarm, seen.out().state(), detail), unixTimeS));
      }
    }
  }
}
