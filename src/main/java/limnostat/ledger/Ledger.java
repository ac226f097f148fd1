package limnostat.ledger;

import java.util.function.Consumer;
import limnostat.config.LedgerSettings;

/**
 * The ledger of one installation; one owner at a time. {@link #offer}, {@link #booked} and {@link
 * #health} never wait for the disk and may be called by any thread.
 */
public interface Ledger extends AutoCloseable {

  /**
   * Opens or creates the file, checks it and brings its schema up to date. A damaged file is
   * renamed to {@code FILE.damaged-UNIXTIME}, with its -wal and -shm, and a new one begun; of one
   * whose account is not believed ({@link Restored#doubt}) a copy goes there. Waits for the disk.
   *
   * @throws LedgerException the ledger is in use, is newer than the program, is another program's
   *     database, or cannot be written; what, where and the mend
   */
  static Ledger open(LedgerSettings settings) throws LedgerException {
    return FileLedger.open(settings, Tuning.DEFAULT);
  }

  /** What was found at opening. */
  Restored restored();

  /**
   * Hands over an entry. Never waits and never throws: when the backlog is full, the oldest
   * readings are dropped first, then the oldest events; bookings, the state and given amounts
   * coalesce; alarms, settings and tests go last, when nothing else is left. {@link #health}
   * counts.
   */
  void offer(Entry entry);

  /**
   * Whatever the work offers goes into one commit, so that after a kill there is all of it or
   * nothing. The caller does not wait, the writer does.
   */
  void together(Runnable work);

  /**
   * A mark behind all that was offered so far, for {@link #committed}. Somebody waits for it, so
   * what waits is committed at once.
   */
  long mark();

  /** Whether all that was offered before a mark has been committed, or had to be dropped. */
  boolean committed(long mark);

  /** Messages for the broker that were found at opening. */
  Outgoing.Found outgoing();

  /** Every message up to this number has been committed, unless it was delivered before. */
  long keptTo();

  /**
   * Reads messages for the broker, as soon as what waits has been written; one wish at a time.
   *
   * @param after number after which to begin
   * @param most how many
   * @param reader called on the ledger's thread; must not wait or throw
   */
  void readOutgoing(long after, int most, Consumer<Outgoing.Page> reader);

  /**
   * Called on the ledger's thread after each commit and each failed one; must not wait or throw.
   */
  void onCommit(Runnable listener);

  /** What is durably booked, the restored bookings included. */
  Booked booked();

  Health health();

  /**
   * Writes what waits, moves the log into the file and closes. Ends after some seconds even if the
   * disk does not answer; then {@link #health} says so.
   */
  @Override
  void close();
}
