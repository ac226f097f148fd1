package limnostat.safety;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The configuration that the last process ran with and, for a day, what the current process changed
 * in it.
 *
 * @param options every option that affects control, by its path, as people write it; empty: not
 *     known
 * @param changes what was changed, each as a display text
 * @param leftS remaining time for which the changes are reported, s
 */
public record Configured(Map<String, String> options, List<String> changes, double leftS) {
  public static final Configured UNKNOWN = new Configured(Map.of(), List.of(), 0);

  /** Time in which whoever looks after the pool checks on it once (engineering judgement), s. */
  private static final double TELL_S = 86_400;

  /** Data read back from a ledger is validated like any untrusted input. */
  public Configured {
    options = Collections.unmodifiableMap(new TreeMap<>(options));
    changes = List.copyOf(changes);
    if (!(leftS >= 0 && leftS <= TELL_S)) {
      throw new IllegalArgumentException("a change reported for " + leftS + " s");
    }
  }

  /**
   * Called when a process starts.
   *
   * @param now the options of the new process; the first options ever are not a change
   */
  Configured configuredBy(Map<String, String> now) {
    List<String> found = options.isEmpty() ? List.of() : changes(now);
    return found.isEmpty()
        ? new Configured(now, changes, leftS)
        : new Configured(now, found, TELL_S);
  }

  private List<String> changes(Map<String, String> now) {
    List<String> found = new ArrayList<>();
    TreeSet<String> paths = new TreeSet<>(options.keySet());
    paths.addAll(now.keySet());
    for (String path : paths) {
      String before = options.getOrDefault(path, "none");
      String after = now.getOrDefault(path, "none");
      if (!before.equals(after)) {
        found.add(path + " from " + before + " to " + after);
      }
    }
    return found;
  }

  Configured passed(double elapsedS) {
    double next = Math.max(0, leftS - elapsedS);
    return leftS == 0 ? this : new Configured(options, next > 0 ? changes : List.of(), next);
  }

  public boolean changed() {
    return leftS > 0;
  }
}
