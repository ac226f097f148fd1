/**
 * The commands, and the process around a scan: its clock, its thread, its bookkeeping, its end.
 *
 * <p>{@code Cycle} is one scan with everything around it. {@code Daemon} calls it by the clock,
 * {@code Demo} as fast as it likes. The demo runs on the shipped option file, so that the file
 * cannot rot.
 *
 * <ul>
 *   <li><b>An outage counts only as far as the kernel's monotonic clock proves it</b> ({@code
 *       Boot}): within a boot exactly, otherwise the time since this boot.
 *   <li><b>Nobody catches an error of another thread</b> ({@code LastResort}). Half a program is
 *       none. It halts, since an orderly end needs what may just have failed. The ledger is made
 *       for that.
 *   <li><b>A request at the machine is a file</b> ({@code Spool}). A thread of its own reads it,
 *       since a disk may hang. The file is taken away before it counts, so a crash loses it, which
 *       the person is told, and never doubles it. There is no socket, no protocol, and no right but
 *       that of the folder. The season's reset is a file for the same reason: whoever can write
 *       there is at the machine.
 *   <li><b>What was announced is noted in a file beside the ledger</b> ({@code AnnouncedTopics}),
 *       and only what is in it is ever removed from a broker. An installation that never switched
 *       discovery on sends nothing to the topics of others, which an access list may forbid. A
 *       topic stays on the list for good, since nobody knows whether a broker was there at the
 *       time.
 *   <li><b>Readings go to the broker only after it was away</b>, one a minute. While it is there
 *       {@code state} says more.
 *   <li><b>An id is the process's (boot, monotonic second) and a count</b>, not a time of day,
 *       which a board may live through twice.
 *   <li><b>A bench line that is too long is refused by its length.</b> Cut to the bound it may end
 *       in blanks and look whole. A malformed line is an interruption: its outputs were off, so the
 *       next scan proves flow again.
 * </ul>
 */
package limnostat.cli;
