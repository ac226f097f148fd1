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
 */
package limnostat.ledger;
