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
 * The backlog's part for messages to the broker: those to be written, the numbers to be removed, a
 * wish to read. A message that is acknowledged before it was written is never written. Guarded by
 * the backlog's lock.
 */
public final class Outgoing {
  /** More than any outbox holds; only a ledger that has been dead for long comes here. */
  static final int MESSAGES_MAX = 25_000;

  /** Acknowledgements that wait for the minute's commit; after a kill so many come twice. */
  private static final int REMOVED_MAX = 64;

  /**
   * What an earlier process left.
   *
   * @param messages how many
   * @param newest highest number, 0 for none
   */
  public record Found(int messages, long newest) {}

  /**
   * What was read.
   *
   * @param messages in order of their numbers
   * @param keptTo whatever has a number up to this one and is not to be removed has been in the
   *     file
   */
  public record Page(List<Entry.Message> messages, long keptTo) {
    public Page {
      messages = List.copyOf(messages);
    }
  }

  /** A wish to read the messages after a number. */
  record Request(long after, int most, Consumer<Page> reader) {}

  private final Map<Long, Entry.Message> added = new LinkedHashMap<>();
  private final Set<Long> removed = new LinkedHashSet<>();
  private Optional<Request> request = Optional.empty();
  private long newest;

  /** False: there is no room. */
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

  /** Takes what is to be written. */
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
   * For one commit.
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
