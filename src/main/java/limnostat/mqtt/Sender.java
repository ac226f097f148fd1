package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One who sends commands, as far as one can be told from another: MQTT 3.1.1 shows a receiver the
 * topic, the retain flag and the content, and nothing of the client that published. Each has a
 * budget of its own. Not thread-safe.
 */
final class Sender {
  /** The topic {@code command} without an id. */
  static final String WITHOUT_ID = "";

  /** Everybody's who sends with the retain flag: what is retained is refused anyway. */
  static final String RETAINED = "retained";

  /** Those who come with new ids when there is no place for one more. */
  static final String STRANGER = "stranger";

  /**
   * Left for one who was not heard lately, when the others have used up what all may send together;
   * engineering judgement.
   */
  static final int RESERVED_PER_HOUR = 20;

  static final int RESERVED_BURST = 10;

  /** A rough look, no reader of JSON: what it takes for an id decides on a budget and no more. */
  private static final Pattern ID =
      Pattern.compile("\"request_id\"\\s*:\\s*\"([A-Za-z][A-Za-z0-9_]{0,15})[-:/.]");

  private final TokenBucket second;
  private final TokenBucket hour;
  private final TokenBucket reserved;
  private long heardNanos;
  private int waiting;

  Sender(long nowNanos) {
    second = new TokenBucket(Inbox.COMMANDS_PER_S, Inbox.BURST, nowNanos);
    hour = new TokenBucket(Inbox.COMMANDS_PER_HOUR / 3600.0, Inbox.COMMANDS_PER_HOUR, nowNanos);
    reserved = new TokenBucket(RESERVED_PER_HOUR / 3600.0, RESERVED_BURST, nowNanos);
    heardNanos = nowNanos;
  }

  /**
   * Whose a command is by its id: what stands before the first {@code - : / .} of it, as in {@code
   * owner-17}.
   *
   * @param document its beginning
   */
  static String of(byte[] document) {
    Matcher id = ID.matcher(new String(document, ISO_8859_1));
    return id.find() ? "id " + id.group(1) : WITHOUT_ID;
  }

  /** Whether one more may be taken now. */
  boolean may(TokenBucket all, long nowNanos) {
    heardNanos = nowNanos;
    return second.take(nowNanos)
        && hour.take(nowNanos)
        && (all.take(nowNanos) || reserved.take(nowNanos));
  }

  /** When it sent something last, monotonic ns. */
  long heardNanos() {
    return heardNanos;
  }

  int waiting() {
    return waiting;
  }

  void queued() {
    waiting++;
  }

  void left() {
    waiting--;
  }
}
