package limnostat.mqtt;

/** What came in on the command topic, or on others that were asked for. */
public sealed interface Inbound {

  /**
   * A command to be read; nothing of its content has been looked at.
   *
   * @param payload at most {@link Inbox#PAYLOAD_BYTES_MAX} bytes, the receiver's own
   */
  @SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
  record Command(byte[] payload) implements Inbound {}

  /**
   * What came on another topic that was asked for; nothing of its content has been looked at.
   *
   * @param topic whole
   * @param payload at most {@link Inbox#PAYLOAD_BYTES_MAX} bytes, the receiver's own
   */
  @SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
  record Other(String topic, byte[] payload) implements Inbound {}

  /**
   * A command that was dropped, so that its sender can be told why.
   *
   * @param what it, as far as {@link Inbox#PAYLOAD_BYTES_MAX} goes; only to tell whose it was
   */
  record Refused(Reason reason, Inbound what) implements Inbound {}

  /** Why a command was dropped. */
  enum Reason {
    RETAINED("retained by the broker, so of unknown age; publish without the retain flag"),
    TOO_LONG("longer than " + Inbox.PAYLOAD_BYTES_MAX + " bytes"),
    /** Counted only, never told: an answer to each message of a flood would double the flood. */
    TOO_MANY(
        "more than "
            + Inbox.COMMANDS_PER_S
            + " commands a second or "
            + Inbox.COMMANDS_PER_HOUR
            + " an hour, of one sender or of all"),
    /** Counted only, as there is no place left to tell it. */
    QUEUE_FULL("too many commands waiting");

    private final String text;

    Reason(String text) {
      this.text = text;
    }

    /** In words for the sender. */
    public String text() {
      return text;
    }
  }
}
