package limnostat.ledger;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * What was found when the ledger was opened.
 *
 * @param state the newest saved state
 * @param bookings last booking of each output that has one; a booked amount counts as given unless
 *     the opposite is proved
 * @param doubt why the dosed amounts are unknown. The caps must then be taken as used up, and state
 *     and bookings are what could be read, which may be old or empty
 * @param setAside where the file that is not trusted went, or its copy
 * @param fresh whether there was no ledger before, damaged or not
 * @param machineKnown whether the file is known to come from this machine; if not, another boot may
 *     have been another machine's
 * @param schemaVersion version of the file's schema, after any migration
 */
public record Restored(
    Optional<SavedState> state,
    Map<Output, LastBooking> bookings,
    Optional<String> doubt,
    Optional<Path> setAside,
    boolean fresh,
    boolean machineKnown,
    int schemaVersion) {
  public Restored {
    bookings = Map.copyOf(bookings);
  }

  /** Cumulative amounts booked, g or mL. */
  Map<Output, Double> booked() {
    Map<Output, Double> amounts = new EnumMap<>(Output.class);
    bookings.forEach((output, last) -> amounts.put(output, last.cumulativeAmount()));
    return amounts;
  }

  /** The state as it was saved. */
  @SuppressWarnings("ArrayRecordComponent") // as the JSON reader needs it; never compared
  public record SavedState(byte[] json, Moment moment) {}

  /**
   * @param cumulativeAmount total ever booked, g of chlorine or mL of acid
   */
  public record LastBooking(double cumulativeAmount, Moment moment) {}
}
