/**
 * The link to the broker: topics and bytes out, commands in. It knows nothing of what they mean.
 *
 * <pre>
 * scan thread                     thread mqtt                      threads of the client library
 * retain, event  -> Outbox  ->    Worker -> Session  ->  broker
 *                   | ^ Keeper: the ledger, by an adapter of the commands'
 * pollCommand    <- Inbox                        <-----------------  messageArrived
 *                                 Worker <- notices <--------------  acknowledged, failed, lost
 * </pre>
 *
 * <p>Nothing that the scan thread calls waits for the network, throws, or takes a lock that is held
 * while something else does. Both boxes are bounded by count and by bytes. An acknowledgement means
 * that the broker has a message, nothing more. What is retained is published as it is now, and
 * again after every connect. What is sent once is with the {@link limnostat.mqtt.Keeper} until the
 * broker has acknowledged it, so it comes at least once, in order; subscribers tell a repeat by its
 * id.
 */
package limnostat.mqtt;
