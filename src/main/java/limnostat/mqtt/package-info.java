/**
 * The link to the broker: topics and bytes out, commands in. It knows nothing of what they mean.
 *
 * <pre>
 * scan thread                     thread mqtt                      threads of the client library
 * retain, event  -> Outbox  ->    Worker -> Session  ->  broker
 * pollCommand    <- Inbox                        <-----------------  messageArrived
 *                                 Worker <- notices <--------------  acknowledged, failed, lost
 * </pre>
 *
 * <p>Nothing that the scan thread calls waits for the network, throws, or takes a lock that is held
 * while something else does. Both boxes are bounded by count and by bytes. An acknowledgement means
 * that the broker has a message, nothing more: state is published retained and again after every
 * connect, subscribers must bear duplicates, and what must not be lost belongs in the ledger.
 */
package limnostat.mqtt;
