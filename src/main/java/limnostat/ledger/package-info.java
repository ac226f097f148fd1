/**
 * The durable record: doses booked ahead, the state to resume from, readings, events, water tests
 * and settings, in one SQLite file.
 *
 * <p>Callers hand entries to a bounded backlog and never wait; one thread, {@code ledger}, owns the
 * connection:
 *
 * <pre>
 * offer -> Backlog (coalesces, drops by rule) -> LedgerWriter (batches, retries) -> Database
 *                                                      |
 *                                            booked(), health()
 * </pre>
 *
 * The file is in WAL mode with {@code synchronous=FULL}: what was committed survives a power cut if
 * card and kernel honour flushes (SQLite documentation, "Write-Ahead Logging").
 *
 * <ul>
 *   <li><b>No ledger before: an empty account.</b> A first installation has to be able to dose. A
 *       damaged or unreadable ledger counts both caps as used up.
 *   <li><b>What a scan brings is one commit</b> ({@code Ledger.together}): its state, its journal,
 *       its messages. Committed apart, a transition might never be sent.
 *   <li><b>Acknowledgements of the broker are committed 64 at a time, or with the minute.</b> A
 *       commit each would wear the card, and a repeat bears its id. After a kill at most so many
 *       come twice, and 15 that were under way. A message that is acknowledged before it was
 *       written is never written.
 *   <li><b>Messages that wait beyond the bound in memory are read back in pages of 500</b> ({@code
 *       Outgoing}).
 *   <li><b>What is added to the table {@code given} goes by the cumulative total that it has</b>
 *       ({@code given_until}), so a retry adds nothing.
 * </ul>
 */
package limnostat.ledger;
