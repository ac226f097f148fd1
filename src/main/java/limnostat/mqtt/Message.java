package limnostat.mqtt;

/**
 * One message of the outbox.
 *
 * @param number the order of sending, beginning with 1 and never used twice
 * @param topic whole topic
 * @param payload must not be changed
 */
@SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
public record Message(long number, String topic, Worth worth, byte[] payload) {

  /** What goes first when there is no room. */
  public enum Worth {
    /** One of a row of readings: every second one goes first. */
    READING,
    /** Goes when there are no readings left, the oldest first. */
    NOTE,
    /** While there is something that keeps it, it goes after years of them only. */
    RECORD
  }
}
