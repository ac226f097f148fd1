package limnostat.ledger;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * What was found when the ledger was opened.
 *
 * @param state the newest saved state
 * @param bookings last booking of each output that has one; what was booked and cannot be proved
 *     not given counts as given
 * @param damagedSetAside where a damaged file went; then bookings are lost, and the caps must be
 *     taken as used up
 * @param fresh whether there was no ledger before, damaged or not
 * @param schemaVersion version of the file's schema, after any migration
 */
public record Restored(
    Optional<SavedState> state,
    Map<Output, LastBooking> bookings,
    Optional<Path> damagedSetAside,
    boolean fresh,
    int schemaVersion) {
  public Restored {
    bookings = Map.copyOf(bookings);
  }

  /** The state as it was handed in. */
  @SuppressWarnings("ArrayRecordComponent") // as the JSON reader takes it; never compared
  public record SavedState(byte[] json, Moment moment) {}

  /**
   * @param cumulativeAmount total ever booked, g of chlorine or mL of acid
   */
  public record LastBooking(double cumulativeAmount, Moment moment) {}
}
