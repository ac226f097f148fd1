/**
 * The process around a scan: its clock, its thread, its bookkeeping and announcements, its end.
 *
 * <p>{@code ScanCycle} is one scan with everything around it. {@code Daemon} calls it by the clock,
 * the demo as fast as it likes. {@code Service} is the daemon between an open field and its end.
 *
 * <ul>
 *   <li><b>An outage counts only as far as the kernel's monotonic clock proves it</b> ({@code
 *       BootClock}): within a boot exactly, otherwise the time since this boot.
 *   <li><b>Nobody catches an error of another thread</b> ({@code LastResort}). Half a program is
 *       none. It halts, since an orderly end needs what may just have failed. The ledger is made
 *       for that.
 *   <li><b>A request at the machine is a file</b> ({@code LocalCommandFolder}). A thread of its own
 *       reads it, since a disk may hang. The file is taken away before it counts, so a crash loses
 *       it, which the person is told, and never doubles it. There is no socket, no protocol, and no
 *       right but that of the folder: whoever can write there is at the machine.
 *   <li><b>What was announced is noted in a file beside the ledger</b> ({@code AnnouncedTopics}),
 *       and only what is in it is ever removed from a broker. An installation that never switched
 *       discovery on sends nothing to the topics of others, which an access list may forbid. A
 *       topic stays on the list for good, since nobody knows whether a broker was there at the
 *       time.
 *   <li><b>Readings go to the broker only after it was away</b>, one a minute. While it is there
 *       {@code state} says more.
 *   <li><b>An id is the process's (boot, monotonic second) and a count</b>, not a time of day,
 *       which a board may live through twice.
 * </ul>
 */
package limnostat.daemon;
