package limnostat.daemon;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.alarm.Alarms;
import limnostat.ledger.Restored;
import limnostat.safety.Cause;
import limnostat.safety.Configured;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.scan.Setpoints;
import limnostat.wire.SavedState;
import limnostat.wire.StateMigration;

/**
 * The state in which a process starts, derived from its ledger.
 *
 * @param outageS time since the saved state that can be proved, s
 * @param note what the log says about it
 * @param changes setpoints that the file has changed since the state was saved
 */
public record Resume(ScanState state, double outageS, String note, List<ScanEvent> changes) {
  Resume(ScanState state, double outageS, String note) {
    this(state, outageS, note, List.of());
  }

  public static Resume from(Restored restored, ScanSettings settings, BootClock clock) {
    ScanState fresh = ScanState.start(settings);
    if (restored.doubt().isPresent()) {
      return doubted(restored, settings);
    }
    if (restored.state().isEmpty()) {
      return new Resume(
          fresh.resumed(settings),
          0,
          restored.fresh()
              ? "new ledger; nothing is known of earlier doses"
              : "the ledger holds no saved state; what it has booked counts as given");
    }
    Restored.SavedState saved = restored.state().get();
    boolean comparable = restored.machineKnown() || clock.id().equals(saved.moment().bootId());
    double outageS = comparable ? clock.outageS(saved.moment()) : 0;
    try {
      ScanState before = SavedState.read(saved.json());
      return resumed(before, settings, outageS, "");
    } catch (IOException e) {
      return ofAnother(saved.json(), settings, outageS, reason(e));
    }
  }

  /**
   * The dosed amounts are unknown. Everything else in the ledger is used as far as it can be read.
   */
  private static Resume doubted(Restored restored, ScanSettings settings) {
    ScanState fresh = ScanState.start(settings);
    ScanState before = restored.state().map(saved -> read(saved, fresh)).orElse(fresh);
    String aside = restored.setAside().map(path -> "; it is set aside as " + path).orElse("");
    return new Resume(
        before.accountUnknown(settings).resumed(settings),
        0,
        "the ledger is not believed, as "
            + restored.doubt().get()
            + aside
            + "; what was dosed is not known, so the caps count as used up for 24 hours");
  }

  private static ScanState read(Restored.SavedState saved, ScanState fresh) {
    try {
      return SavedState.read(saved.json());
    } catch (IOException whole) {
      try {
        return StateMigration.read(saved.json(), fresh).state();
      } catch (IOException parts) {
        return fresh;
      }
    }
  }

  /**
   * Takes over each part that can be read. If the amounts given or the lockouts are lost, nothing
   * is fed for a day.
   */
  private static Resume ofAnother(
      byte[] json, ScanSettings settings, double outageS, String reason) {
    ScanState fresh = ScanState.start(settings);
    try {
      StateMigration other = StateMigration.read(json, fresh);
      if (other.mayFeed()) {
        String lost = other.lost().isEmpty() ? "nothing" : String.join(", ", other.lost());
        return resumed(
            other.state(),
            settings,
            outageS,
            "the saved state is of another version (" + reason + "), lost of it: " + lost + "; ");
      }
      return new Resume(
          other.state().accountUnknown(settings).resumed(settings),
          0,
          "the saved state cannot be read ("
              + reason
              + "), lost of it: "
              + String.join(", ", other.lost())
              + "; the caps count as used up for 24 hours");
    } catch (IOException e) {
      return new Resume(
          fresh.accountUnknown(settings).resumed(settings),
          0,
          "the saved state cannot be read ("
              + reason
              + "); the caps count as used up for 24 hours, learning begins anew");
    }
  }

  private static Resume resumed(
      ScanState before, ScanSettings settings, double outageS, String note) {
    ScanState state = before.resumed(settings);
    return new Resume(
        state,
        outageS,
        note + "resumed after " + Math.round(outageS) + " s that are proved",
        Setpoints.changes(before, state, Setpoints.FILE));
  }

  /** The same, with alarms that were raised while there was no ledger carried over. */
  Resume after(Map<Cause, Alarms.Entry> alarms) {
    return new Resume(state.alsoWith(alarms), outageS, note, changes);
  }

  /** The same with the options of this process; changed options are reported. */
  Resume configuredBy(Map<String, String> options) {
    ScanState next = state.configuredBy(options);
    Configured configured = next.safety().watched().configured();
    return new Resume(
        next,
        outageS,
        configured.changed()
            ? note + "; configuration changed: " + String.join("; ", configured.changes())
            : note,
        changes);
  }

  /** The parser's message, without its hint about the parser's own code. */
  private static String reason(IOException e) {
    String said = Optional.ofNullable(e.getMessage()).orElse("").lines().findFirst().orElse("");
    int aside = said.indexOf(" (");
    return aside < 0 ? said : said.substring(0, aside);
  }
}
