/**
 * The durable record: doses booked ahead, the state to resume from, readings, events, water tests
 * and settings, in one SQLite file.
 *
 * <p>Callers hand entries to a bounded backlog and never wait. One thread, {@code ledger}, owns the
 * connection:
 *
 * <pre>
 * offer -> Backlog (coalesces, drops by rule) -> LedgerWriter (batches, retries) -> Database
 *                                                      |
 *                                            booked(), health()
 * </pre>
 *
 * The file is in WAL mode with {@code synchronous=FULL}: committed data survives a power cut if
 * card and kernel honour flushes (SQLite documentation, "Write-Ahead Logging").
 *
 * <ul>
 *   <li><b>Without an earlier ledger the account is empty.</b> A first installation must be able to
 *       dose. A damaged or unreadable ledger counts both caps as used up.
 *   <li><b>The results of a scan go into one commit</b> ({@code Ledger.together}): its state, its
 *       journal, its messages. In separate commits, a transition might never be sent.
 *   <li><b>Acknowledgements of the broker are committed 64 at a time, or once a minute.</b> A
 *       commit for each would wear out the card, and a repeated message carries the same id. After
 *       a kill at most 64 are sent twice, plus 15 in flight. A message that is acknowledged before
 *       it was written is never written.
 *   <li><b>Messages beyond the memory limit are read back in pages of 500</b> ({@code Outgoing}).
 *   <li><b>Additions to the table {@code given} are computed from the cumulative total already
 *       there</b> ({@code given_until}), so a retry adds nothing.
 * </ul>
 */
package limnostat.ledger;
