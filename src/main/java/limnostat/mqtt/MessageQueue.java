package limnostat.mqtt;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.Optional;
import java.util.function.Consumer;
import limnostat.mqtt.Message.Worth;

/**
 * The messages that are sent once each, in order. The keeper has all of them; the oldest are also
 * here in memory. A message leaves memory when the broker has acknowledged it. When the bound is
 * reached, readings are thinned out: every second one is dropped, so older ones become ever
 * sparser. Then notes are dropped, oldest first. Records beyond the bound are only with the keeper
 * until there is room here. The oldest records are dropped at a bound of their own, which takes
 * years to reach. Guarded by the outbox's lock.
 */
final class MessageQueue {
  /** Maximum number of messages read back at a time. */
  private static final int PAGE = 500;

  private final Outbox.Bounds bounds;
  private final Keeper keeper;

  /** Called with the messages that were read, from a thread of the keeper. */
  private final Consumer<Keeper.Page> reader;

  private final Deque<Outbox.Entry> here = new ArrayDeque<>();
  private long bytes;
  private long newest;

  /**
   * The messages that only the keeper has: how many, after which number, and up to which number.
   */
  private int elsewhere;

  private long elsewhereAfter;
  private long elsewhereTo;
  private boolean reading;

  private long dropped;
  private long droppedRecords;
  private long thinned;

  MessageQueue(Outbox.Bounds bounds, Keeper keeper, Consumer<Keeper.Page> reader) {
    this.bounds = bounds;
    this.keeper = keeper;
    this.reader = reader;
    Keeper.Found found = keeper.found();
    newest = found.newest();
    elsewhere = found.messages();
    elsewhereTo = found.newest();
  }

  void add(String topic, Worth worth, byte[] payload) {
    readBack(); // messages from an earlier process can only be dropped once they are in memory
    while (full(payload) && giveWay(worth)) {
      // one step at a time
    }
    boolean room = !full(payload);
    if (!room && worth != Worth.RECORD) {
      drop(worth);
      return;
    }
    while (waiting() >= bounds.recordsMax() && !here.isEmpty()) {
      dropOldest();
    }
    Message message = new Message(++newest, topic, worth, payload);
    boolean kept = keeper.keep(message);
    if (room && elsewhere == 0) {
      append(message);
    } else if (kept) {
      if (elsewhere == 0) {
        elsewhereAfter = here.getLast().number();
      }
      elsewhere++;
      elsewhereTo = message.number();
    } else {
      while (full(payload)) {
        dropOldest();
      }
      append(message);
    }
  }

  /** A new connection: nothing is in flight. */
  void connected() {
    here.forEach(e -> e.open(false));
  }

  /** The next message to send, unless it has to wait for the keeper. */
  Optional<Outbox.Entry> take() {
    readBack();
    Optional<Outbox.Entry> next = here.stream().filter(e -> !e.open()).findFirst();
    if (next.isEmpty()
        || (next.get().worth() == Worth.RECORD && !keeper.safe(next.get().number()))) {
      return Optional.empty();
    }
    next.get().open(true);
    return next;
  }

  void acknowledged(Outbox.Entry entry) {
    remove(entry);
  }

  /** False if the page brought nothing and asking again at once would be pointless. */
  boolean read(Keeper.Page page) {
    reading = false;
    page.messages().forEach(this::append);
    if (!page.messages().isEmpty()) {
      elsewhereAfter = here.getLast().number();
    } else if (page.keptTo() >= elsewhereTo) {
      elsewhereAfter = elsewhereTo;
    } else {
      return false;
    }
    elsewhere = elsewhereAfter >= elsewhereTo ? 0 : Math.max(1, elsewhere - page.messages().size());
    return true;
  }

  int waiting() {
    return here.size() + elsewhere;
  }

  long dropped() {
    return dropped;
  }

  long droppedRecords() {
    return droppedRecords;
  }

  boolean overflowed() {
    return dropped > 0 || thinned > 0 || waiting() > bounds.eventsMax();
  }

  long thinned() {
    return thinned;
  }

  private void readBack() {
    int room = Math.min(bounds.eventsMax() - here.size(), PAGE);
    if (elsewhere > 0 && !reading && (here.isEmpty() || room == PAGE) && room > 0) {
      reading = true;
      keeper.read(elsewhereAfter, room, reader);
    }
  }

  private boolean full(byte[] payload) {
    return waiting() >= bounds.eventsMax() || bytes + payload.length > bounds.bytesMax();
  }

  /** Makes some room for a message of the given worth; false if nothing can be dropped. */
  private boolean giveWay(Worth worth) {
    return thin() || (worth != Worth.READING && dropOldestNote());
  }

  private boolean thin() {
    boolean any = false;
    boolean goes = true;
    for (Iterator<Outbox.Entry> entries = here.iterator(); entries.hasNext(); ) {
      Outbox.Entry entry = entries.next();
      if (entry.worth() != Worth.READING || entry.open()) {
        continue;
      }
      if (goes) {
        entries.remove();
        gone(entry);
        thinned++;
        any = true;
      }
      goes = !goes;
    }
    return any;
  }

  private boolean dropOldestNote() {
    for (Outbox.Entry entry : here) {
      if (entry.worth() == Worth.NOTE) {
        dropped++;
        remove(entry);
        return true;
      }
    }
    return false;
  }

  private void dropOldest() {
    Outbox.Entry oldest = here.getFirst();
    dropped++;
    if (oldest.worth() == Worth.RECORD) {
      droppedRecords++;
    }
    remove(oldest);
  }

  private void drop(Worth worth) {
    if (worth == Worth.READING) {
      thinned++;
    } else {
      dropped++;
    }
  }

  private void append(Message message) {
    here.addLast(new Outbox.Entry(message));
    bytes += message.payload().length;
  }

  private void remove(Outbox.Entry entry) {
    if (here.remove(entry)) {
      gone(entry);
    }
  }

  private void gone(Outbox.Entry entry) {
    bytes -= entry.payload().length;
    keeper.forget(entry.number());
  }
}
