package limnostat.mqtt;

/** A message from the command topic or from another subscribed topic. */
public sealed interface Inbound {

  /**
   * A command to be read. Its content has not been checked yet.
   *
   * @param payload at most {@link Inbox#PAYLOAD_BYTES_MAX} bytes; the receiver owns it
   */
  @SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
  record Command(byte[] payload) implements Inbound {}

  /**
   * A message from another subscribed topic. Its content has not been checked yet.
   *
   * @param topic the full topic
   * @param payload at most {@link Inbox#PAYLOAD_BYTES_MAX} bytes; the receiver owns it
   */
  @SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
  record Other(String topic, byte[] payload) implements Inbound {}

  /**
   * A command that was dropped, so that its sender can be told why.
   *
   * @param what the command, cut to {@link Inbox#PAYLOAD_BYTES_MAX}; only used to identify its
   *     sender
   */
  record Refused(Reason reason, Inbound what) implements Inbound {}

  /** Why a command was dropped. */
  enum Reason {
    RETAINED("retained by the broker, so of unknown age; publish without the retain flag"),
    TOO_LONG("longer than " + Inbox.PAYLOAD_BYTES_MAX + " bytes"),
    /**
     * Only counted, never answered: an answer to each message of a flood would double the flood.
     */
    TOO_MANY(
        "more than "
            + Inbox.COMMANDS_PER_S
            + " commands a second or "
            + Inbox.COMMANDS_PER_HOUR
            + " an hour, of one sender or of all"),
    /** Only counted, because there is no room left to report it. */
    QUEUE_FULL("too many commands waiting");

    private final String text;

    Reason(String text) {
      this.text = text;
    }

    /** The reason in words, for the sender. */
    public String text() {
      return text;
    }
  }
}
