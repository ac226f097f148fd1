package limnostat.config;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Options that a file may still contain although they no longer have any effect. An upgrade must
 * not stop a plant because of a line that used to be valid. Their values are ignored.
 */
final class Retired {
  private static final String BY_PLAN =
      "has no effect any more: the control law plans by the estimate and has nothing to tune;"
          + " remove it";

  private static final Map<String, String> WHY =
      Map.of(
          "limits.fallback",
          "has no effect any more: what is fed while nothing trustworthy measures chlorine is"
              + " bounded by its amount, limits.blind_feed, and not by time; remove it",
          "control.gain",
          BY_PLAN,
          "control.integral_time",
          BY_PLAN);

  private static final Set<String> TABLES =
      WHY.keySet().stream()
          .map(path -> path.substring(0, path.lastIndexOf('.')))
          .collect(Collectors.toUnmodifiableSet());

  private Retired() {}

  /** Why an option has no effect, and what replaces it; empty for any other key. */
  static Optional<String> why(String path) {
    return Optional.ofNullable(WHY.get(path));
  }

  /** Whether the table contains such options; it may contain nothing else. */
  static boolean table(String path) {
    return TABLES.contains(path);
  }
}
