package limnostat.ledger;

import java.util.Collection;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * What the ledger stands for, kept by the writer's thread: what is booked and the newest state, of
 * which each commit that changes them makes a {@link Seal}; and should the file vanish, they are
 * what another one begins with.
 */
final class Standing {
  private final String ledgerId;
  private final String machine;
  private final Map<Output, Entry.Booking> bookings = new EnumMap<>(Output.class);
  private long commits;
  private boolean doubted;
  private Optional<Entry.State> state;

  /**
   * @param commits above which the next seal's number is
   */
  Standing(String ledgerId, String machine, long commits, Restored restored) {
    this.ledgerId = ledgerId;
    this.machine = machine;
    this.commits = commits;
    this.doubted = restored.doubt().isPresent();
    // A state that is not believed is not written again.
    this.state =
        doubted
            ? Optional.empty()
            : restored.state().map(s -> new Entry.State(s.json(), s.moment(), false));
    restored
        .bookings()
        .forEach(
            (output, last) ->
                bookings.put(
                    output, new Entry.Booking(output, last.cumulativeAmount(), last.moment())));
  }

  Collection<Entry.Booking> bookings() {
    return bookings.values();
  }

  /** For a file that may be a new one. */
  Batch all() {
    return Batch.ofAccount(bookings.values(), state);
  }

  /**
   * What the ledger will stand for once this batch is committed; empty if it leaves the account as
   * it is. While there is doubt only a state ends it, since that is what says that the caps are
   * used up: a process that is killed before leaves the doubt to the next.
   */
  Optional<Seal> with(Batch batch) {
    if (batch.changesNoAccount() || (doubted && batch.state().isEmpty())) {
      return Optional.empty();
    }
    Map<Output, Double> amounts = new EnumMap<>(Output.class);
    merged(batch).forEach((output, booking) -> amounts.put(output, booking.cumulativeAmount()));
    return Optional.of(
        Seal.of(
            ledgerId,
            machine,
            commits + 1,
            amounts,
            batch.state().or(() -> state).map(s -> new Restored.SavedState(s.json(), s.moment()))));
  }

  /**
   * The batch is on the disk, and so is the record of it.
   *
   * @param sealed whether it had a seal
   */
  void took(Batch batch, boolean sealed) {
    bookings.putAll(merged(batch));
    state = batch.state().or(() -> state);
    if (sealed) {
      commits++;
      doubted = false;
    }
  }

  private Map<Output, Entry.Booking> merged(Batch batch) {
    Map<Output, Entry.Booking> merged = new EnumMap<>(Output.class);
    merged.putAll(bookings);
    for (Entry.Booking booking : batch.bookings()) {
      merged.merge(booking.output(), booking, Entry.Booking::higher);
    }
    return merged;
  }
}
