package limnostat.scan;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Interlocks;
import limnostat.scan.Mutant.Row;

/**
 * In which histories an effect of the matrix is the only thing between a demand and its output.
 * Elsewhere a program without it does the same, so there is no use in looking for it there.
 */
final class Stakes {
  /** To have to switch off what is on shows at once; to keep off what is wanted may not. */
  private static final long WAS_ON = 100;

  private final Map<Row, Map<Long, Long>> seeds = new HashMap<>();

  /** Looks at one history of the whole program. */
  void look(long seed) {
    Map<Row, Long> found = new HashMap<>();
    History history = new History(seed);
    for (int scan = 0; scan < Proof.SCANS; scan++) {
      Seen seen;
      try {
        seen = history.next();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      for (Output output : Output.values()) {
        look(seen, output, found);
      }
    }
    synchronized (this) {
      found.forEach(
          (row, weight) -> seeds.computeIfAbsent(row, r -> new HashMap<>()).put(seed, weight));
    }
  }

  private static void look(Seen seen, Output output, Map<Row, Long> found) {
    boolean wasOn = seen.before().of(output).modulator().on() && !seen.start().newProcess();
    double duty =
        output == Output.CHLORINE
            ? seen.out().demand().chlorineDuty()
            : seen.out().demand().acidDuty();
    Set<Cause> active = seen.out().permission().active();
    if (!wasOn && duty == 0) {
      return;
    }
    for (Cause cause : active) {
      if (cause.on(output) != Effect.NONE) {
        Set<Cause> others = EnumSet.copyOf(active);
        others.remove(cause);
        if (Interlocks.effect(others, output) != Interlocks.effect(active, output)) {
          found.merge(new Row(cause, output), wasOn ? WAS_ON : 1, Long::sum);
        }
      }
    }
  }

  /** The seeds in which most is at stake, that first. */
  List<Long> of(Row row, int most) {
    Comparator<Map.Entry<Long, Long>> byWeight =
        Map.Entry.<Long, Long>comparingByValue()
            .reversed()
            .thenComparing(Map.Entry.comparingByKey());
    return seeds.getOrDefault(row, Map.of()).entrySet().stream()
        .sorted(byWeight)
        .limit(most)
        .map(Map.Entry::getKey)
        .toList();
  }
}
