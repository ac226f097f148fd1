package limnostat.ledger;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The entries of one commit. */
record Batch(
    List<Entry.Booking> bookings,
    Optional<Entry.State> state,
    List<Entry.Given> given,
    List<Entry.Readings> readings,
    List<Entry.Journal> journal,
    Outgoing.Changes outgoing) {

  static Batch of(Collection<Entry.Booking> bookings) {
    return ofAccount(bookings, Optional.empty());
  }

  static Batch ofAccount(Collection<Entry.Booking> bookings, Optional<Entry.State> state) {
    return new Batch(
        List.copyOf(bookings), state, List.of(), List.of(), List.of(), Outgoing.Changes.NONE);
  }

  boolean isEmpty() {
    return bookings.isEmpty()
        && state.isEmpty()
        && given.isEmpty()
        && readings.isEmpty()
        && journal.isEmpty()
        && outgoing.isEmpty();
  }

  /** Whether it has neither a booking nor a state. */
  boolean changesNoAccount() {
    return bookings.isEmpty() && state.isEmpty();
  }

  /** The part that may safely be written twice. */
  Batch account() {
    return ofAccount(bookings, state);
  }

  /** The boots that its moments refer to. */
  Set<String> bootIds() {
    return moments().map(Moment::bootId).collect(Collectors.toSet());
  }

  /** Newest trusted wall-clock time, Unix s. */
  OptionalDouble trustedUnixTimeS() {
    return moments().filter(Moment::clockTrusted).mapToDouble(Moment::unixTimeS).max();
  }

  private Stream<Moment> moments() {
    return Stream.of(
            bookings.stream().map(Entry.Booking::moment),
            state.stream().map(Entry.State::moment),
            readings.stream().map(Entry.Readings::moment),
            journal.stream().map(Entry.Journal::moment))
        .flatMap(s -> s);
  }
}
