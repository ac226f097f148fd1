package limnostat.ledger;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The ledger's condition.
 *
 * @param failingSinceS monotonic time ({@link System#nanoTime} in s) since which nothing could be
 *     written; absent while all is well
 * @param lastError newest error: what failed, where, and the remedy; kept after recovery
 * @param dropped entries lost because the backlog was full, or because the ledger was closed
 * @param commits commits since opening
 * @param worstCommitS longest commit since opening, s
 */
public record Health(
    OptionalDouble failingSinceS,
    Optional<String> lastError,
    Dropped dropped,
    long commits,
    double worstCommitS) {

  /**
   * Dropped entries since opening.
   *
   * @param readings rows of readings
   * @param events events that are not urgent
   * @param others bookings, states, given amounts, alarms, tests and settings; dropped only after
   *     closing, or if the whole backlog consists of them
   */
  public record Dropped(long readings, long events, long others) {}
}
