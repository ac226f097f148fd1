package limnostat.ledger;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import limnostat.actuate.Output;

/**
 * The entries that wait for the writer. It is bounded. Bookings, the state and given amounts
 * coalesce (at most one booking per output, one state, and one amount per output and hour).
 * Readings and journal share a capacity. The lock is held only briefly, never during disk access.
 */
final class Backlog {
  /**
   * The order in which kinds are dropped, the oldest of each kind first. Tests go last, because a
   * person made the effort.
   */
  private static final List<Predicate<Entry.Journal>> SACRIFICE =
      List.of(
          e -> e instanceof Entry.Event && !e.urgent(),
          e -> e instanceof Entry.Event,
          e -> e instanceof Entry.Setting,
          e -> true);

  private record OutputHour(Output output, long hourUnixS) {}

  private final int capacity;
  private final Map<Output, Entry.Booking> bookings = new EnumMap<>(Output.class);
  private final Map<OutputHour, Entry.Given> given = new LinkedHashMap<>();
  private final Deque<Entry.Readings> readings = new ArrayDeque<>();
  private final Deque<Entry.Journal> journal = new ArrayDeque<>();
  private final Outgoing outgoing = new Outgoing();
  private Optional<Entry.State> state = Optional.empty();
  private long offered;
  private long taken;
  private boolean urgent;
  private boolean held;
  private boolean closed;
  private long droppedReadings;
  private long droppedEvents;
  private long droppedOthers;

  Backlog(int capacity) {
    this.capacity = capacity;
  }

  synchronized void offer(Entry entry) {
    offered++;
    if (closed) {
      countDropped(entry);
      return;
    }
    boolean wasEmpty = isEmpty();
    add(entry);
    if (readings.size() + journal.size() > capacity) {
      dropOne();
    }
    boolean atOnce = entry.urgent() || outgoing.urgent();
    if (atOnce || wasEmpty) {
      urgent |= atOnce;
      notifyAll();
    }
  }

  private void add(Entry entry) {
    if (entry instanceof Entry.Booking booking) {
      bookings.merge(booking.output(), booking, Entry.Booking::higher);
    } else if (entry instanceof Entry.State newest) {
      state = Optional.of(newest);
    } else if (entry instanceof Entry.Given amount) {
      given.merge(new OutputHour(amount.output(), amount.hourUnixS()), amount, Entry.Given::joined);
    } else if (entry instanceof Entry.Message message) {
      if (!outgoing.add(message)) {
        countDropped(message);
      }
    } else if (entry instanceof Entry.Delivered delivered) {
      outgoing.remove(delivered.number());
    } else if (entry instanceof Entry.Readings row) {
      readings.addLast(row);
    } else if (entry instanceof Entry.Journal line) {
      journal.addLast(line);
    }
  }

  private void dropOne() {
    if (!readings.isEmpty()) {
      countDropped(readings.removeFirst());
      return;
    }
    for (Predicate<Entry.Journal> dispensable : SACRIFICE) {
      for (Iterator<Entry.Journal> lines = journal.iterator(); lines.hasNext(); ) {
        Entry.Journal line = lines.next();
        if (dispensable.test(line)) {
          lines.remove();
          countDropped(line);
          return;
        }
      }
    }
  }

  private void countDropped(Entry entry) {
    if (entry instanceof Entry.Readings) {
      droppedReadings++;
    } else if (entry instanceof Entry.Event && !entry.urgent()) {
      droppedEvents++;
    } else {
      droppedOthers++;
    }
  }

  synchronized boolean isEmpty() {
    return bookings.isEmpty()
        && state.isEmpty()
        && given.isEmpty()
        && readings.isEmpty()
        && journal.isEmpty()
        && outgoing.isEmpty();
  }

  /** Everything offered until {@link #release} goes into one commit. */
  synchronized void hold() {
    held = true;
  }

  synchronized void release() {
    held = false;
    notifyAll();
  }

  synchronized void ask(Outgoing.Request request) {
    outgoing.ask(request);
    urgent = true;
    notifyAll();
  }

  synchronized Optional<Outgoing.Request> takeRequest() {
    return outgoing.takeRequest();
  }

  /** How many entries have been offered. The batch interval no longer delays any of them. */
  synchronized long mark() {
    if (!isEmpty()) {
      urgent = true;
      notifyAll();
    }
    return offered;
  }

  /** How many of the offered entries are in a batch that was taken, or were dropped before. */
  synchronized long taken() {
    return taken;
  }

  /**
   * Takes everything that is waiting; takes nothing while entries for the same commit are still to
   * come.
   */
  synchronized Batch take() {
    if (held && !closed) {
      return Batch.of(List.of());
    }
    taken = offered;
    Batch batch =
        new Batch(
            List.copyOf(bookings.values()),
            state,
            List.copyOf(given.values()),
            List.copyOf(readings),
            List.copyOf(journal),
            outgoing.take());
    bookings.clear();
    state = Optional.empty();
    given.clear();
    readings.clear();
    journal.clear();
    urgent = false;
    return batch;
  }

  /**
   * Waits until there is an urgent entry, or any entry and the time has come, or the backlog is
   * closed.
   *
   * @param earliestNs {@link System#nanoTime} before which entries that are not urgent wait
   */
  synchronized void awaitWork(long earliestNs) throws InterruptedException {
    while ((!urgent || held) && !closed) {
      long leftNs = earliestNs - System.nanoTime();
      if (held || isEmpty()) {
        wait();
      } else if (leftNs > 0) {
        TimeUnit.NANOSECONDS.timedWait(this, leftNs);
      } else {
        return;
      }
    }
  }

  /**
   * Waits until a time, or until the backlog is closed if that is sooner.
   *
   * @param untilNs {@link System#nanoTime}
   * @param closedBefore whether the caller already knew that it was closed
   */
  synchronized void awaitRetry(long untilNs, boolean closedBefore) throws InterruptedException {
    while (closed == closedBefore) {
      long leftNs = untilNs - System.nanoTime();
      if (leftNs <= 0) {
        return;
      }
      TimeUnit.NANOSECONDS.timedWait(this, leftNs);
    }
  }

  synchronized boolean urgent() {
    return urgent;
  }

  /** Refuses entries from now on. Waiting entries can still be taken. */
  synchronized void close() {
    closed = true;
    notifyAll();
  }

  synchronized boolean closed() {
    return closed;
  }

  synchronized Health.Dropped dropped() {
    return new Health.Dropped(droppedReadings, droppedEvents, droppedOthers);
  }
}
