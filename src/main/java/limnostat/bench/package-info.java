/**
 * The control loop closed by another program, which simulates the plant: each input line is one
 * scan, and each output line answers it.
 *
 * <p><b>A line that is too long is refused by its length.</b> Once cut to the limit, it may end in
 * blanks and look complete. A malformed line is an interruption: its outputs were off, so the next
 * scan proves flow again.
 */
package limnostat.bench;
