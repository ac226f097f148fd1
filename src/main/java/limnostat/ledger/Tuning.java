package limnostat.ledger;

/**
 * Parameters that only tests change.
 *
 * @param batchEveryS entries that are not urgent are committed at most this often, s
 * @param firstRetryS first pause after a failed commit, s; doubles
 * @param lastRetryS longest pause, s
 * @param closeS no commit begins later than this after closing starts, s
 * @param busyMs how long SQLite waits for another program's lock, ms
 * @param capacity most readings and journal entries that can wait
 * @param pagesMax most pages in the file; 0: no limit
 * @param checkpointEveryS how often the log is moved into the file, and also a minute after
 *     opening, s
 * @param otherHandMs a record changed this much later than its own timestamp was changed by
 *     something else, ms
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
   * 60 s: 0.9 MB per hour on the card at one row per second (measured). 6 s, and twice 3 s for
   * locks: within the 20 s that systemd allows for a stop. 2,000: one day of readings, one a
   * minute, and some megabytes at most. 1800 s: some 100 kB each time, 5 MB a day in addition to
   * the log's 40 (computed from its pages); losing the log then loses half an hour. 2,000 ms: the
   * write and its timestamp are within one tick of the kernel (engineering judgement).
   */
  static final Tuning DEFAULT = new Tuning(60, 1, 60, 6, 3000, 2000, 0, 1800, 2000);
}
