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
 */
record Tuning(
    double batchEveryS,
    double firstRetryS,
    double lastRetryS,
    double closeS,
    int busyMs,
    int capacity,
    int pagesMax) {

  /**
   * 60 s: 0.9 MB an hour on the card at one row a second (measured). 6 s, and twice 3 s for locks:
   * within the 20 s that systemd gives to stop. 2,000: a day of readings by the minute, and some
   * megabytes at most.
   */
  static final Tuning DEFAULT = new Tuning(60, 1, 60, 6, 3000, 2000, 0);
}
