package limnostat.ledger;

/**
 * What only tests change.
 *
 * @param batchEveryS entries that are not urgent are committed at most this often, s
 * @param firstRetryS first pause after a failed commit, s; doubles
 * @param lastRetryS longest pause, s
 * @param closeS no commit begins later than this after closing, s
 * @param busyMs how long SQLite waits for another program's lock, ms
 * @param capacity most readings and journal entries that wait
 * @param pagesMax most pages of the file; 0: no limit
 * @param checkpointEveryS the log is moved into the file so often, and a minute after opening, s
 * @param otherHandMs a record that was changed so much later than it says was put there by another
 *     hand, ms
 */
record Tuning(
    double batchEveryS,
    double firstRetryS,
    double lastRetryS,
    double closeS,
    int busyMs,
    int capacity,
    int pagesMax,
    double checkpointEveryS,
    long otherHandMs) {

  /**
   * 60 s: 0.9 MB an hour on the card at one row a second (measured). 6 s, and twice 3 s for locks:
   * within the 20 s that systemd gives to stop. 2,000: a day of readings by the minute, and some
   * megabytes at most. 1800 s: some 100 kB each time, 5 MB a day beside the log's 40 (computed from
   * its pages), so that a log that is lost takes half an hour with it. 2,000 ms: a write and the
   * time that it bears are within one tick of the kernel (engineering judgement).
   */
  static final Tuning DEFAULT = new Tuning(60, 1, 60, 6, 3000, 2000, 0, 1800, 2000);
}
