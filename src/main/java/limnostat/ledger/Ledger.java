package limnostat.ledger;

import java.util.function.Consumer;
import limnostat.config.LedgerSettings;

/**
 * The ledger of one installation, with one owner at a time. {@link #offer}, {@link #booked} and
 * {@link #health} never wait for the disk and may be called by any thread.
 */
public interface Ledger extends AutoCloseable {

  /**
   * Opens or creates the file, checks it and brings its schema up to date. A damaged file is
   * renamed to {@code FILE.damaged-UNIXTIME}, with its -wal and -shm, and a new one is created. If
   * the account in the file is not trusted ({@link Restored#doubt}), a copy goes there. Waits for
   * the disk.
   *
   * @throws LedgerException the ledger is in use, is newer than the program, is another program's
   *     database, or cannot be written; the message says what failed, where, and the remedy
   */
  static Ledger open(LedgerSettings settings) throws LedgerException {
    return FileLedger.open(settings, Tuning.DEFAULT);
  }

  /** What was found at opening. */
  Restored restored();

  /**
   * Hands over an entry. It never waits and never throws. When the backlog is full, the oldest
   * readings are dropped first, then the oldest events. Bookings, the state and given amounts
   * coalesce. Alarms, settings and tests are dropped last, when nothing else is left. {@link
   * #health} counts what was dropped.
   */
  void offer(Entry entry);

  /**
   * Everything that the work offers goes into one commit, so that after a kill all of it is there
   * or nothing. The caller does not wait; the writer does.
   */
  void together(Runnable work);

  /**
   * A mark after everything offered so far, for {@link #committed}. The caller waits for it, so all
   * waiting entries are committed at once.
   */
  long mark();

  /** Whether everything offered before a mark has been committed, or had to be dropped. */
  boolean committed(long mark);

  /** Messages for the broker that were found when the ledger was opened. */
  Outgoing.Found outgoing();

  /** Every message up to this number has been committed, unless it was delivered before. */
  long keptTo();

  /**
   * Reads messages for the broker, once all waiting entries have been written. Only one request can
   * be pending.
   *
   * @param after number of the last message that is not wanted
   * @param most most messages to read
   * @param reader called on the ledger's thread; must not wait or throw
   */
  void readOutgoing(long after, int most, Consumer<Outgoing.Page> reader);

  /**
   * Called on the ledger's thread after each commit and each failed one; must not wait or throw.
   */
  void onCommit(Runnable listener);

  /** The amounts that are durably booked, restored bookings included. */
  Booked booked();

  Health health();

  /**
   * Writes all waiting entries, moves the log into the file and closes. It returns after some
   * seconds even if the disk does not answer; {@link #health} then reports that.
   */
  @Override
  void close();
}
