package limnostat.scan;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import limnostat.actuate.Output;
import limnostat.safety.Cause;

/** What the histories have been through: a rule that was never put to the test proves nothing. */
final class Coverage implements Rule {
  /** What takes a day or a new configuration to come: longer than these histories. */
  static final Set<Cause> SLOW =
      Set.of(
          Cause.ESTIMATE_LOST,
          Cause.ESTIMATE_UNSURE,
          Cause.CHLORINE_DOUBTFUL,
          Cause.STARVED_BY_ORP,
          Cause.ORP_FALLING,
          Cause.OUTPUT_TOO_SMALL,
          Cause.CONFIGURATION_CHANGED,
          Cause.TEST_OVERDUE);

  private final Set<Cause> active = EnumSet.noneOf(Cause.class);
  private final Map<Output, Integer> on = new EnumMap<>(Output.class);
  private final Map<Seen.Start, Integer> starts = new EnumMap<>(Seen.Start.class);
  private final Map<String, Integer> commands = new TreeMap<>();

  @Override
  public void check(Seen seen) {
    active.addAll(seen.out().permission().active());
    starts.merge(seen.start(), 1, Integer::sum);
    for (Output output : Output.values()) {
      on.merge(output, seen.on(output) ? 1 : 0, Integer::sum);
    }
    for (ScanEvent event : seen.out().events()) {
      if (event instanceof ScanEvent.Accepted a) {
        commands.merge(a.request().command().getClass().getSimpleName(), 1, Integer::sum);
      }
    }
  }

  synchronized void add(Coverage other) {
    active.addAll(other.active);
    other.on.forEach((output, n) -> on.merge(output, n, Integer::sum));
    other.starts.forEach((start, n) -> starts.merge(start, n, Integer::sum));
    other.commands.forEach((command, n) -> commands.merge(command, n, Integer::sum));
  }

  /** Whether everything has come up, outputs on often enough to be caught. */
  void assertComplete(long scans) {
    Rule.require(missing().isEmpty(), () -> "never seen: " + missing());
    Rule.require(starts.size() == Seen.Start.values().length, starts::toString);
    Rule.require(commands.size() == 16, commands::toString);
    Rule.require(on.get(Output.CHLORINE) > scans / 20, () -> this + " of " + scans);
    Rule.require(on.get(Output.ACID) > scans / 1000, () -> this + " of " + scans);
  }

  private Set<Cause> missing() {
    Set<Cause> missing = EnumSet.allOf(Cause.class);
    missing.removeAll(active);
    missing.removeAll(SLOW);
    return missing;
  }

  @Override
  public String toString() {
    return "on " + on + ", starts " + starts + ", accepted " + commands;
  }
}
