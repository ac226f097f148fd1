package limnostat.mqtt;

import java.util.HashSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Decides which lines are logged: that the link is up, each cause once per outage, and then only
 * how long the outage lasted. A link that comes and goes every second counts as one outage. Time is
 * an argument.
 */
final class LinkLog {
  /** Causes contain texts from the operating system, which may vary without limit. */
  private static final int CAUSES_MAX = 8;

  private final String address;
  private final Set<String> reported = new HashSet<>();
  private boolean reportedOverflowed;
  private boolean reportedDropped;
  private boolean flapping;
  private double downSinceS;

  LinkLog(String address) {
    this.address = address;
  }

  Optional<String> connected(double nowS) {
    return flapping ? Optional.empty() : returned(nowS);
  }

  /** The connection has lasted. */
  Optional<String> settled(double nowS) {
    boolean due = flapping;
    flapping = false;
    return due ? returned(nowS) : Optional.empty();
  }

  /**
   * @param briefly whether it was lost within seconds of connecting
   */
  Optional<String> down(String cause, boolean briefly, double nowS) {
    flapping = flapping || briefly;
    if (reported.isEmpty()) {
      downSinceS = nowS;
    }
    return reported.size() < CAUSES_MAX && reported.add(cause)
        ? Optional.of("MQTT link down: " + cause)
        : Optional.empty();
  }

  /**
   * Reports messages that wait for an absent broker, each condition once.
   *
   * @param overflowed whether the configured bound was exceeded
   * @param droppedRecords records dropped in favour of newer ones
   */
  Optional<String> waiting(boolean overflowed, long droppedRecords) {
    if (droppedRecords > 0 && !reportedDropped) {
      reportedDropped = true;
      return Optional.of(
          "no broker has come for so long that the oldest alarms, totals and commands are no longer"
              + " kept for it; the ledger's events still have them. Without a broker set mqtt.enabled"
              + " = false");
    }
    if (overflowed && !reportedOverflowed) {
      reportedOverflowed = true;
      return Optional.of(
          "no room for all that waits for the broker (mqtt.outbox_messages): readings give way, then"
              + " notes; alarms, totals and commands go on waiting in the ledger. Without a broker"
              + " set mqtt.enabled = false");
    }
    return Optional.empty();
  }

  private Optional<String> returned(double nowS) {
    String line =
        reported.isEmpty()
            ? "MQTT link to " + address + " is up"
            : String.format(Locale.ROOT, "MQTT link is up again after %.0f s", nowS - downSinceS);
    reported.clear();
    return Optional.of(line);
  }
}
