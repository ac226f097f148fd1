package limnostat.mqtt;

/**
 * One message of the outbox.
 *
 * @param number the order of sending; it starts at 1 and is never reused
 * @param topic full topic
 * @param payload must not be changed
 */
@SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
public record Message(long number, String topic, Worth worth, byte[] payload) {

  /** What is dropped first when there is no room. */
  public enum Worth {
    /** One of a series of readings. Every second reading is dropped first. */
    READING,
    /** Dropped when there are no readings left, oldest first. */
    NOTE,
    /** With a keeper, dropped only after years of records. */
    RECORD
  }
}
