package limnostat.daemon;

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
import limnostat.wire.DayDocument;
import limnostat.wire.EventDocument;
import limnostat.wire.ReadingDocument;
import limnostat.wire.StateDocument;

/** Passes the results of a scan to the link, by topic. Owned by the scan thread; never waits. */
public final class Announcer {
  /** How often the daemon announces the state, s. */
  static final double STATE_EVERY_S = 10;

  /** How often a reading is stored while the broker is unreachable, s (engineering judgement). */
  private static final double READING_EVERY_S = 60;

  private final Link link;
  private final String run;
  private final double stateEveryS;
  private double stateAtS = Double.NEGATIVE_INFINITY;
  private double readingAtS = Double.NEGATIVE_INFINITY;
  private long number;

  /** What was last announced for an alarm. */
  private record Announced(AlarmDocument.Shown shown, double sinceUnixS) {}

  private final Map<Cause, Announced> announced = new EnumMap<>(Cause.class);
  private Optional<Follower> follower = Optional.empty();

  /** Announces the same in another convention. */
  interface Follower {
    void alarm(Cause alarm, AlarmState state);

    /**
     * @param document as published on the topic {@code state}
     */
    void state(byte[] document);
  }

  /**
   * @param stateEveryS the state is announced this often, s, and at once when something happens
   * @param start every alarm is announced in the state that it has here
   * @param now its boot and monotonic time distinguish this process's events from those of an
   *     earlier process, even if the wall clock jumps
   */
  public Announcer(Link link, double stateEveryS, ScanState start, Moment now) {
    this.link = link;
    this.stateEveryS = stateEveryS;
    String boot = now.bootId().substring(0, Math.min(8, now.bootId().length()));
    this.run = boot + "-" + (long) now.monotonicS();
    // Inactive alarms too: the broker may hold an earlier process's state that no ledger remembers.
    for (Cause cause : Cause.values()) {
      if (cause.priority() != Priority.NONE) {
        AlarmDocument.Shown shown = AlarmDocument.Shown.of(cause, start, Optional.empty());
        tell(cause, new Announced(shown, now.unixTimeS()));
      }
    }
  }

  /** Informs the follower from now on; starts with the present state of every alarm. */
  void follow(Follower other) {
    follower = Optional.of(other);
    announced.forEach((alarm, as) -> other.alarm(alarm, as.shown().state()));
  }

  void announce(ScanOutcome outcome, Moment moment) {
    double unixTimeS = moment.unixTimeS();
    for (ScanEvent event : outcome.events()) {
      if (event instanceof ScanEvent.AlarmChanged changed && changed.heldBack()) {
        continue; // in the ledger; announced once the flood is over
      }
      byte[] document = EventDocument.numbered(event, unixTimeS, nextId());
      send(event, "event", document);
      if (event instanceof ScanEvent.Accepted
          || event instanceof ScanEvent.Refused
          || event instanceof ScanEvent.AnsweredAgain) {
        send(event, "result", document);
      }
      if (event instanceof ScanEvent.AlarmChanged changed) {
        Cause alarm = changed.alarm();
        AlarmDocument.Shown shown = shown(alarm, outcome);
        tell(
            alarm,
            new Announced(
                new AlarmDocument.Shown(
                    changed.to(), shown.detail(), changed.firstOut(), shown.shelvedUntilUnixS()),
                unixTimeS));
      }
      if (event instanceof ScanEvent.DayEnded day) {
        link.retain("day", DayDocument.of(day.totals(), unixTimeS));
      }
    }
    if (moment.monotonicS() - stateAtS >= stateEveryS || !outcome.events().isEmpty()) {
      stateAtS = moment.monotonicS();
      tellChanges(outcome, unixTimeS);
      byte[] document = StateDocument.of(outcome, unixTimeS);
      link.retain("state", document);
      follower.ifPresent(other -> other.state(document));
    }
    tellReading(outcome, moment);
  }

  /**
   * An event that must arrive is sent however long the broker is unreachable; a note may be
   * dropped.
   */
  private void send(ScanEvent event, String topic, byte[] document) {
    if (event.durable()) {
      link.event(topic, document);
    } else {
      link.note(topic, document);
    }
  }

  /**
   * The retained state is enough while the broker is reachable. A reading keeps the history while
   * it is not.
   */
  private void tellReading(ScanOutcome outcome, Moment moment) {
    if (!link.away()) {
      readingAtS = Double.NEGATIVE_INFINITY;
    } else if (moment.monotonicS() - readingAtS >= READING_EVERY_S) {
      readingAtS = moment.monotonicS();
      link.reading(
          "reading",
          ReadingDocument.of(outcome, moment.unixTimeS(), moment.clockTrusted(), nextId()));
    }
  }

  private String nextId() {
    number++;
    return run + "-" + number;
  }

  /**
   * Announces what has changed without an event: the numbers of an active alarm, those of an alarm
   * from before the start, which were not known yet, and alarms that were held back during a flood.
   */
  private void tellChanges(ScanOutcome outcome, double unixTimeS) {
    for (Map.Entry<Cause, Alarms.Entry> alarm : outcome.state().alarms().entrySet()) {
      if (alarm.getValue().heldBack() || !AlarmDocument.raised(alarm.getValue())) {
        continue;
      }
      Announced before = announced.get(alarm.getKey());
      AlarmDocument.Shown now = shown(alarm.getKey(), outcome);
      if (!now.equals(before.shown())) {
        boolean same = now.state() == before.shown().state();
        tell(alarm.getKey(), new Announced(now, same ? before.sinceUnixS() : unixTimeS));
      }
    }
  }

  private static AlarmDocument.Shown shown(Cause alarm, ScanOutcome outcome) {
    return AlarmDocument.Shown.of(alarm, outcome.state(), outcome.details().of(alarm));
  }

  private void tell(Cause alarm, Announced now) {
    announced.put(alarm, now);
    follower.ifPresent(other -> other.alarm(alarm, now.shown().state()));
    link.retain("alarm/" + alarm.id(), AlarmDocument.of(alarm, now.shown(), now.sinceUnixS()));
  }
}
