/**
 * From a duty to on and off, within minimum times and the longest run. Pure.
 *
 * <p>{@link limnostat.actuate.Modulator} keeps a running balance of the seconds that it owes, and
 * no cycle timer. A balance gives the same period, loses nothing to rounding, to minimum times or
 * to irregular scans, and is two numbers of state. What an interlock takes away is not owed.
 *
 * <p>The longest run and the rest after it are the modulator's. The matrix shows them ({@code
 * chlorine_longest_run}, {@code acid_longest_run}) and inhibits the output by itself, from the
 * modulator's own on time, so that it is whole. There is no alarm: at full duty a cell rests every
 * four hours.
 */
package limnostat.actuate;
