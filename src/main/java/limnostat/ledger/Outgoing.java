package limnostat.ledger;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * The backlog's part for messages to the broker: messages to be written, numbers to be removed, and
 * a request to read. A message that is acknowledged before it was written is never written. Guarded
 * by the backlog's lock.
 */
public final class Outgoing {
  /** More than any outbox holds. Only a ledger that has failed for a long time reaches this. */
  static final int MESSAGES_MAX = 25_000;

  /**
   * Acknowledgements that wait for the commit once a minute. After a kill, this many may be sent
   * twice.
   */
  private static final int REMOVED_MAX = 64;

  /**
   * Messages left by an earlier process.
   *
   * @param messages number of messages
   * @param newest highest number, 0 for none
   */
  public record Found(int messages, long newest) {}

  /**
   * The messages that were read.
   *
   * @param messages in the order of their numbers
   * @param keptTo every message up to this number has been in the file, unless it is to be removed
   */
  public record Page(List<Entry.Message> messages, long keptTo) {
    public Page {
      messages = List.copyOf(messages);
    }
  }

  /** A request to read the messages after a number. */
  record Request(long after, int most, Consumer<Page> reader) {}

  private final Map<Long, Entry.Message> added = new LinkedHashMap<>();
  private final Set<Long> removed = new LinkedHashSet<>();
  private Optional<Request> request = Optional.empty();
  private long newest;

  /** Returns false if there is no room. */
  boolean add(Entry.Message message) {
    newest = Math.max(newest, message.number());
    if (added.size() >= MESSAGES_MAX) {
      return false;
    }
    added.put(message.number(), message);
    return true;
  }

  void remove(long number) {
    if (added.remove(number) == null) {
      removed.add(number);
    }
  }

  boolean urgent() {
    return request.isPresent() || removed.size() >= REMOVED_MAX;
  }

  void ask(Request wish) {
    request = Optional.of(wish);
  }

  boolean isEmpty() {
    return added.isEmpty() && removed.isEmpty();
  }

  /** Takes the changes to be written. */
  Changes take() {
    Changes changes = new Changes(new ArrayList<>(added.values()), List.copyOf(removed), newest);
    added.clear();
    removed.clear();
    return changes;
  }

  Optional<Request> takeRequest() {
    Optional<Request> taken = request;
    request = Optional.empty();
    return taken;
  }

  /**
   * The changes for one commit.
   *
   * @param newest highest number handed over so far
   */
  record Changes(List<Entry.Message> added, List<Long> removed, long newest) {
    static final Changes NONE = new Changes(List.of(), List.of(), 0);

    boolean isEmpty() {
      return added.isEmpty() && removed.isEmpty();
    }
  }
}
