package limnostat.scan;

import java.util.List;
import java.util.Optional;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.Priority;

/** Commands for single alarms. None of them changes what a cause does to an output. */
final class AlarmCommands {
  private AlarmCommands() {}

  static ScanState acknowledge(ScanState s, String id, List<ScanEvent> events) throws Refusal {
    Cause alarm = alarm(id);
    AlarmState state = state(s, alarm);
    if (!Alarms.acknowledgeable(s.alarms(), alarm)) {
      throw new Refusal("alarm " + id + " is " + state.term() + ": it has nothing to acknowledge");
    }
    return applied(s, Alarms.acknowledge(s.alarms(), s.annunciator(), alarm), events);
  }

  static ScanState shelve(
      ScanSettings settings, ScanState s, Command.Shelve c, Now now, List<ScanEvent> events)
      throws Refusal {
    Cause alarm = alarm(c.alarm());
    if (alarm.priority() == Priority.CRITICAL) {
      throw new Refusal("alarm " + c.alarm() + " is critical, and those are never shelved");
    }
    if (settings.outOfService().contains(alarm)) {
      throw new Refusal(
          "alarm " + c.alarm() + " is out of service, by the installer's alarms.out_of_service");
    }
    SetLimit.within(
        "the time",
        c.seconds(),
        SetLimit.hard(HardBounds.SHELF_MIN_S),
        SetLimit.hard(HardBounds.SHELF_MAX_S)
            .orLower(SetLimit.installer(settings.setpoints().shelfMaxS(), "alarms.shelf_max")),
        " s");
    return applied(
        s,
        Alarms.shelve(
            s.alarms(), s.annunciator(), alarm, c.seconds(), now.unixTimeS(), now.clockTrusted()),
        events);
  }

  static ScanState unshelve(ScanState s, String id, List<ScanEvent> events) throws Refusal {
    Cause alarm = alarm(id);
    Alarms.Entry entry = s.alarms().get(alarm);
    if (entry == null || !entry.shelf().running()) {
      throw new Refusal("alarm " + id + " is " + state(s, alarm).term() + ", not shelved");
    }
    return applied(s, Alarms.unshelve(s.alarms(), s.annunciator(), alarm), events);
  }

  private static Cause alarm(String id) throws Refusal {
    Cause cause = Cause.ofId(id).orElseThrow(() -> new Refusal("no alarm has the id " + id));
    if (cause.priority() == Priority.NONE) {
      throw new Refusal("cause " + id + " raises no alarm");
    }
    return cause;
  }

  private static AlarmState state(ScanState s, Cause alarm) {
    Alarms.Entry entry = s.alarms().get(alarm);
    return entry == null ? AlarmState.NORMAL : entry.state();
  }

  private static ScanState applied(ScanState s, Alarms.Result result, List<ScanEvent> events) {
    result
        .transitions()
        .forEach(
            t ->
                events.add(
                    new ScanEvent.AlarmChanged(
                        t.alarm(),
                        t.from(),
                        t.to(),
                        Optional.empty(),
                        s.annunciator().firstOut().marks(t.alarm()),
                        t.heldBack())));
    return s.withAlarms(result.entries());
  }
}
