package limnostat.safety;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The configuration that the last process ran on, and for a day what the present one changed of it.
 *
 * @param options every option that has to do with control, by its path, as people write it; empty:
 *     not known
 * @param changes what was changed, each as a text for people
 * @param leftS for how long that is still reported, s
 */
public record Configured(Map<String, String> options, List<String> changes, double leftS) {
  public static final Configured UNKNOWN = new Configured(Map.of(), List.of(), 0);

  /** Time in which whoever looks after the pool looks in once (engineering judgement), s. */
  private static final double TELL_S = 86_400;

  /** What is read back from a ledger is checked as a stranger's would be. */
  public Configured {
    options = Collections.unmodifiableMap(new TreeMap<>(options));
    changes = List.copyOf(changes);
    if (!(leftS >= 0 && leftS <= TELL_S)) {
      throw new IllegalArgumentException("a change reported for " + leftS + " s");
    }
  }

  /**
   * A process begins.
   *
   * @param now its options; the first ever are no change
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
