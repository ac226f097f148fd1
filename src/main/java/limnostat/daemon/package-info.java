/**
 * The process around a scan: its clock, its thread, its bookkeeping, its announcements and its end.
 *
 * <p>{@code ScanCycle} is one complete scan. {@code Daemon} calls it by the clock, the demo as fast
 * as it likes. {@code Service} runs the daemon on an open field until the end.
 *
 * <ul>
 *   <li><b>An outage counts only as far as the kernel's monotonic clock proves it</b> ({@code
 *       BootClock}): within a boot exactly, otherwise the time since this boot.
 *   <li><b>An uncaught error in any thread ends the process</b> ({@code LastResort}). A program
 *       that has lost a thread must not continue. It halts, since an orderly exit needs what may
 *       just have failed. The ledger is designed for that.
 *   <li><b>A request at the machine is a file</b> ({@code LocalCommandFolder}). A separate thread
 *       reads it, since a disk may hang. The file is deleted before the command takes effect. So a
 *       crash may lose a command, which the person learns, but never repeats it. There is no socket
 *       and no protocol. The only permission is that of the folder: whoever can write there counts
 *       as a person at the machine.
 *   <li><b>Announced topics are recorded in a file beside the ledger</b> ({@code AnnouncedTopics}),
 *       and only topics in that file are ever removed from a broker. So an installation that never
 *       switched discovery on sends nothing to topics outside its own, which an access list may
 *       forbid. A topic stays on the list forever, since nobody knows whether a broker was
 *       reachable at the time.
 *   <li><b>Readings go to the broker only after an outage of the broker</b>, one per minute. While
 *       the broker is reachable, {@code state} says more.
 *   <li><b>An id consists of the process's id (boot, monotonic second) and a count</b>. It is not a
 *       time of day, which may repeat on a board.
 * </ul>
 */
package limnostat.daemon;
