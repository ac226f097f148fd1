package limnostat.cli;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
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

  /** What was last said of an alarm, beside its state. */
  private record Told(AlarmState state, Optional<String> detail, double sinceUnixS) {}

  private final Map<Cause, Told> told = new EnumMap<>(Cause.class);

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
        tell(cause, new Told(state, Optional.empty(), now.unixTimeS()));
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
        Cause alarm = changed.alarm();
        tell(alarm, new Told(changed.to(), outcome.details().of(alarm), unixTimeS));
      }
    }
    if (moment.monotonicS() - stateAtS >= stateEveryS || !outcome.events().isEmpty()) {
      stateAtS = moment.monotonicS();
      tellChangedDetails(outcome);
      link.retain("state", StateDocument.of(outcome, unixTimeS));
    }
  }

  /**
   * The numbers of an alarm that stands move on, and those of one from before are not known yet.
   */
  private void tellChangedDetails(ScanOutcome outcome) {
    for (Map.Entry<Cause, Alarms.Entry> alarm : outcome.state().alarms().entrySet()) {
      Told before = told.get(alarm.getKey());
      Optional<String> detail = outcome.details().of(alarm.getKey());
      if (AlarmDocument.raised(alarm.getValue()) && !detail.equals(before.detail())) {
        tell(alarm.getKey(), new Told(before.state(), detail, before.sinceUnixS()));
      }
    }
  }

  private void tell(Cause alarm, Told now) {
    told.put(alarm, now);
    link.retain(topic(alarm), AlarmDocument.of(alarm, now.state(), now.detail(), now.sinceUnixS()));
  }

  private static String topic(Cause alarm) {
    return "alarm/" + alarm.id();
  }
}
