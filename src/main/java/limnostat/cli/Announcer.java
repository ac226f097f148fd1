package limnostat.cli;

import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.ledger.Moment;
import limnostat.mqtt.Link;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.wire.AlarmDocument;
import limnostat.wire.EventDocument;
import limnostat.wire.StateDocument;

/** Hands what a scan brought to the link, by topic. Owned by the scan thread; never waits. */
final class Announcer {
  /** How often the daemon announces the state, s. */
  static final double STATE_EVERY_S = 10;

  private final Link link;
  private final String run;
  private final double stateEveryS;
  private double stateAtS = Double.NEGATIVE_INFINITY;
  private long number;

  /**
   * @param stateEveryS the state is announced this often, s, and at once when something happened
   * @param start every alarm is announced as it is
   * @param now boot and monotonic time tell this process's events from an earlier one's, whatever
   *     the wall clock does
   */
  Announcer(Link link, double stateEveryS, ScanState start, Moment now) {
    this.link = link;
    this.stateEveryS = stateEveryS;
    String boot = now.bootId().substring(0, Math.min(8, now.bootId().length()));
    this.run = boot + "-" + (long) now.monotonicS();
    // Those at rest too: the broker may hold what an earlier process said and no ledger remembers.
    for (Cause cause : Cause.values()) {
      if (cause.priority() != Priority.NONE) {
        Alarms.Entry alarm = start.alarms().get(cause);
        AlarmState state = alarm == null ? AlarmState.NORMAL : alarm.state();
        link.retain(topic(cause), AlarmDocument.of(cause, state, now.unixTimeS()));
      }
    }
  }

  void announce(ScanOutcome outcome, Moment moment) {
    double unixTimeS = moment.unixTimeS();
    for (ScanEvent event : outcome.events()) {
      number++;
      byte[] document = EventDocument.numbered(event, unixTimeS, run + "-" + number);
      link.event("event", document);
      if (event instanceof ScanEvent.Accepted || event instanceof ScanEvent.Refused) {
        link.event("result", document);
      }
      if (event instanceof ScanEvent.AlarmChanged changed) {
        link.retain(
            topic(changed.alarm()), AlarmDocument.of(changed.alarm(), changed.to(), unixTimeS));
      }
    }
    if (moment.monotonicS() - stateAtS >= stateEveryS || !outcome.events().isEmpty()) {
      stateAtS = moment.monotonicS();
      link.retain("state", StateDocument.of(outcome, unixTimeS));
    }
  }

  private static String topic(Cause alarm) {
    return "alarm/" + alarm.id();
  }
}
