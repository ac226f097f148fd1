package limnostat.ledger;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;

/**
 * Replaces a ledger that could not be opened yet. Nothing is booked, so nothing is fed, and the
 * ledger counts as failing from the start, which raises an alarm. Events are kept for the ledger
 * that opens later, up to {@link #EVENTS_MAX}. The state is not kept, since that ledger has a
 * better one.
 */
public final class AbsentLedger implements Ledger {
  /**
   * Most events that wait for the ledger. More than this is a flood, of which the first are enough.
   */
  static final int EVENTS_MAX = 500;

  private final String reason;
  private final double sinceS = System.nanoTime() / 1e9;
  private final Deque<Entry.Event> events = new ArrayDeque<>();
  private long dropped;

  /**
   * @param reason what failed, where, and the remedy
   */
  public AbsentLedger(String reason) {
    this.reason = reason;
  }

  /** The events so far, in order. */
  public synchronized List<Entry.Event> events() {
    return new ArrayList<>(events);
  }

  @Override
  public Restored restored() {
    return new Restored(
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        Optional.empty(),
        true,
        false,
        Schema.VERSION);
  }

  @Override
  public synchronized void offer(Entry entry) {
    if (!(entry instanceof Entry.Event event)) {
      return;
    }
    if (events.size() < EVENTS_MAX) {
      events.add(event);
    } else {
      dropped++;
    }
  }

  @Override
  public void together(Runnable work) {
    work.run();
  }

  @Override
  public long mark() {
    return 1;
  }

  @Override
  public boolean committed(long mark) {
    return false;
  }

  @Override
  public Outgoing.Found outgoing() {
    return new Outgoing.Found(0, 0);
  }

  @Override
  public long keptTo() {
    return 0;
  }

  @Override
  public void readOutgoing(long after, int most, Consumer<Outgoing.Page> reader) {
    reader.accept(new Outgoing.Page(List.of(), 0));
  }

  @Override
  public void onCommit(Runnable listener) {
    // Nothing is ever committed.
  }

  @Override
  public Booked booked() {
    return new Booked(Map.of());
  }

  @Override
  public synchronized Health health() {
    return new Health(
        OptionalDouble.of(sinceS), Optional.of(reason), new Health.Dropped(0, dropped, 0), 0, 0);
  }

  @Override
  public void close() {
    // Nothing is open.
  }
}
