/**
 * What each output has given: amounts, the caps over any 60 minutes and any 24 hours, and the
 * totals of the day and the season. Pure.
 *
 * <ul>
 *   <li><b>A dose is booked before it is given.</b> {@link limnostat.account.DoseAccount} requests
 *       a block ahead of what was given. The output waits ({@code chlorine_not_booked}, {@code
 *       acid_not_booked}) until the ledger confirms the commit. After a crash the rest of a block
 *       counts as given, at the very end of the proven outage.
 *   <li><b>Time is running time</b> plus outages that the kernel's clock proves, never the wall
 *       clock. So a changed clock moves no cap. After a power cut doses age too slowly, never too
 *       fast.
 *   <li><b>A minute counts until all of it has left the window.</b> Before each scan the caps
 *       reserve what the output can give until the next scan, at most 60 s later.
 *   <li><b>Totals are differences between cumulative amounts</b> ({@link
 *       limnostat.account.DoseTotals}). So a crash makes a day's total too high, never too low.
 * </ul>
 */
package limnostat.account;
