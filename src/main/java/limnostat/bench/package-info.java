/**
 * The loop closed from outside: a line of another program's plant is one scan, a line answers it.
 *
 * <p><b>A line that is too long is refused by its length.</b> Cut to the bound it may end in blanks
 * and look whole. A malformed line is an interruption: its outputs were off, so the next scan
 * proves flow again.
 */
package limnostat.bench;
