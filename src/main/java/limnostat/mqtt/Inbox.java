package limnostat.mqtt;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;

/**
 * Commands between the client library's thread and the scan thread. Its lock is held for a few
 * instructions only.
 */
final class Inbox {
  static final int PAYLOAD_BYTES_MAX = 4096;
  static final int COMMANDS_MAX = 32;

  /** A person or a dashboard sends one now and then; engineering judgement. */
  static final int COMMANDS_PER_S = 5;

  static final int BURST = 10;

  /**
   * Each command is a line in log and ledger, for good: at this rate some 5 MB a day, at the other
   * a hundred; engineering judgement.
   */
  static final int COMMANDS_PER_HOUR = 600;

  private final Queue<Inbound> waiting = new ArrayDeque<>();
  private final Map<Inbound.Reason, Long> refused = new EnumMap<>(Inbound.Reason.class);
  private final TokenBucket second;
  private final TokenBucket hour;

  Inbox(long nowNanos) {
    second = new TokenBucket(COMMANDS_PER_S, BURST, nowNanos);
    hour = new TokenBucket(COMMANDS_PER_HOUR / 3600.0, COMMANDS_PER_HOUR, nowNanos);
  }

  void accept(byte[] payload, boolean retained, long nowNanos) {
    accept(new Inbound.Command(beginning(payload)), payload.length, retained, nowNanos);
  }

  /** The same from another topic than the command's. */
  void accept(String topic, byte[] payload, boolean retained, long nowNanos) {
    accept(new Inbound.Other(topic, beginning(payload)), payload.length, retained, nowNanos);
  }

  private synchronized void accept(Inbound in, int bytes, boolean retained, long nowNanos) {
    if (!second.take(nowNanos) || !hour.take(nowNanos)) {
      count(Inbound.Reason.TOO_MANY);
    } else if (retained) {
      refuse(Inbound.Reason.RETAINED, in);
    } else if (bytes > PAYLOAD_BYTES_MAX) {
      refuse(Inbound.Reason.TOO_LONG, in);
    } else if (waiting.size() >= COMMANDS_MAX) {
      count(Inbound.Reason.QUEUE_FULL);
    } else {
      waiting.add(in);
    }
  }

  synchronized Optional<Inbound> poll() {
    return Optional.ofNullable(waiting.poll());
  }

  /** Dropped so far, by reason; a reason that never occurred is absent. */
  synchronized Map<Inbound.Reason, Long> refused() {
    return Collections.unmodifiableMap(new EnumMap<>(refused));
  }

  private void refuse(Inbound.Reason reason, Inbound what) {
    count(reason);
    if (waiting.size() < COMMANDS_MAX) {
      waiting.add(new Inbound.Refused(reason, what));
    }
  }

  private static byte[] beginning(byte[] payload) {
    return payload.length > PAYLOAD_BYTES_MAX ? Arrays.copyOf(payload, PAYLOAD_BYTES_MAX) : payload;
  }

  private void count(Inbound.Reason reason) {
    refused.merge(reason, 1L, Long::sum);
  }
}
