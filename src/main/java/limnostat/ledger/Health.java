package limnostat.ledger;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How the ledger fares.
 *
 * @param failingSinceS monotonic time ({@link System#nanoTime} in s) since when nothing could be
 *     written; absent while all is well
 * @param lastError newest error: what, where and the mend; stays after recovery
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
   * Counts since opening.
   *
   * @param readings rows of readings
   * @param events events that were not urgent
   * @param others bookings, states, given amounts, alarms, tests and settings: only after closing,
   *     or when the whole backlog is made of them
   */
  public record Dropped(long readings, long events, long others) {}
}
