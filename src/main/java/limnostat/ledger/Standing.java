package limnostat.ledger;

import java.util.Collection;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * The ledger's account, kept by the writer's thread: the bookings and the newest state. Each commit
 * that changes them makes a {@link Seal}. If the file vanishes, a new one starts with them.
 */
final class Standing {
  private final String ledgerId;
  private final String machine;
  private final Map<Output, Entry.Booking> bookings = new EnumMap<>(Output.class);
  private long commits;
  private boolean doubted;
  private Optional<Entry.State> state;

  /**
   * @param commits the next seal gets the number after this one
   */
  Standing(String ledgerId, String machine, long commits, Restored restored) {
    this.ledgerId = ledgerId;
    this.machine = machine;
    this.commits = commits;
    this.doubted = restored.doubt().isPresent();
    // A state that is not trusted is not written again.
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

  /** Everything, for a file that may be new. */
  Batch all() {
    return Batch.ofAccount(bookings.values(), state);
  }

  /**
   * The account once this batch is committed; empty if the batch does not change the account. Only
   * a state ends a doubt, since the state says that the caps are used up. If the process is killed
   * before that, the next process finds the same doubt.
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
   * Call when the batch and its record are on the disk.
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
