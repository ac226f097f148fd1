package limnostat.ledger;

import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * Whether a ledger's account can be trusted. Its content is compared with the record beside it.
 * Amounts that the two do not prove count as given, so any doubt means that the caps are used up.
 *
 * @param file whether the file existed and could be read
 * @param seal the ledger's own seal; absent before the first commit that changes the account, and
 *     in a file of a version without seals
 * @param intact whether the seal's checksum matches the content
 * @param booked cumulative amounts in the file, g or mL
 * @param record content of the record beside it
 */
record Proof(
    boolean file,
    Optional<Seal> seal,
    boolean intact,
    Map<Output, Double> booked,
    AccountRecord.Found record) {

  /** More than any pool is ever given: 1,000 t of chlorine, 1,000 m³ of acid. */
  static final double BOOKED_MAX = 1e9;

  static boolean possible(double booked) {
    return booked >= 0 && booked <= BOOKED_MAX;
  }

  /**
   * Why the account is not trusted, as text for a person; empty if it is trusted.
   *
   * @param machine of {@link Machine#id}
   */
  Optional<String> doubt(String machine) {
    return Optional.ofNullable(file ? ofFile(machine) : withoutFile());
  }

  private String withoutFile() {
    return record.newest().isPresent() || record.unreadable() > 0
        ? "the ledger is gone, and its record is not"
        : null;
  }

  private String ofFile(String machine) {
    if (!booked.values().stream().allMatch(Proof::possible)) {
      return "it has bookings that cannot be: " + booked;
    }
    if (seal.isEmpty()) {
      return record.newest().isPresent() || record.unreadable() > 0
          ? "it is older than its record"
          : null;
    }
    Seal own = seal.get();
    if (!intact) {
      return "its account does not agree with its own checksum";
    }
    if (!own.machine().equals(machine)) {
      return "it comes from another machine";
    }
    return compared(own);
  }

  private String compared(Seal own) {
    // Between the first commit and its record, the record is empty.
    if (record.newest().isEmpty()) {
      if (record.unreadable() > 0) {
        return "its record cannot be read";
      }
      return record.present() && own.commits() == 1 ? null : "its record is gone";
    }
    Seal other = record.newest().get();
    if (!other.ledgerId().equals(own.ledgerId())) {
      return "it is not the ledger that its record is of";
    }
    if (other.commits() > own.commits()) {
      return "it is older than its record: "
          + own.commits()
          + " commits, where the record has "
          + other.commits();
    }
    // The unreadable slot belonged to a later commit than the other slot, so the ledger once had
    // that commit.
    if (record.unreadable() > 0 && other.commits() == own.commits()) {
      return "a part of its record cannot be read";
    }
    boolean same = other.commits() == own.commits();
    if (same ? !other.equals(own) : less(own, other)) {
      return "it does not agree with its record";
    }
    return record.otherHand() ? "its record was put there, or touched, by another hand" : null;
  }

  private static boolean less(Seal own, Seal other) {
    return other.booked().entrySet().stream()
        .anyMatch(e -> own.booked().getOrDefault(e.getKey(), 0.0) < e.getValue());
  }
}
