package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A sender of commands, as far as senders can be distinguished. MQTT 3.1.1 shows a receiver the
 * topic, the retain flag and the content, but nothing about the client that published. Each sender
 * has its own budget. Not thread-safe.
 */
final class Sender {
  /** Senders on the topic {@code command} without an id. */
  static final String WITHOUT_ID = "";

  /** All senders that set the retain flag. Retained commands are refused anyway. */
  static final String RETAINED = "retained";

  /** Senders with new ids when there is no place for another one. */
  static final String STRANGER = "stranger";

  /**
   * Reserved for a sender that has not been heard lately, when the others have used up the shared
   * budget; engineering judgement.
   */
  static final int RESERVED_PER_HOUR = 20;

  static final int RESERVED_BURST = 10;

  /** A rough match, not a JSON parser. What it takes for an id only selects a budget. */
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
   * The sender of a command by its id: the part before the first {@code - : / .}, as in {@code
   * owner-17}.
   *
   * @param document the beginning of the command document
   */
  static String of(byte[] document) {
    Matcher id = ID.matcher(new String(document, ISO_8859_1));
    return id.find() ? "id " + id.group(1) : WITHOUT_ID;
  }

  /** Whether another command may be accepted now. */
  boolean may(TokenBucket all, long nowNanos) {
    heardNanos = nowNanos;
    return second.take(nowNanos)
        && hour.take(nowNanos)
        && (all.take(nowNanos) || reserved.take(nowNanos));
  }

  /** When it last sent something, monotonic ns. */
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
