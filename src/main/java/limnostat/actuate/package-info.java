/**
 * Converts a duty to on and off, within the minimum times and the longest run. Pure.
 *
 * <p>{@link limnostat.actuate.Modulator} keeps a running balance of the seconds that it owes
 * instead of a cycle timer. A balance gives the same period. It loses nothing to rounding, to
 * minimum times or to irregular scans. What an interlock takes away is not owed.
 *
 * <p>The modulator enforces the longest run and the rest after it. The matrix shows them ({@code
 * chlorine_longest_run}, {@code acid_longest_run}) and also inhibits the output itself, from the
 * modulator's own on time, so that the matrix is complete. There is no alarm, because at full duty
 * a cell rests every four hours.
 */
package limnostat.actuate;
