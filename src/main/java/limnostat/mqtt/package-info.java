/**
 * The link to the broker: topics and bytes go out, commands come in. It does not know what they
 * mean.
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
 * during other work. Both boxes are bounded by count and by bytes. An acknowledgement means that
 * the broker has a message, nothing more. A retained topic is published with its current value, and
 * again after every connect. A message that is sent once stays with the {@link
 * limnostat.mqtt.Keeper} until the broker has acknowledged it. So it arrives at least once, in
 * order, and subscribers recognise a repeat by its id.
 *
 * <ul>
 *   <li><b>The outbox is in memory, with a mirror in the ledger</b> ({@code MessageQueue}, {@link
 *       limnostat.mqtt.Keeper}). It is not a table that is polled. So the link keeps working
 *       without a disk, and one path sends both what an earlier process left and what has just
 *       happened.
 *   <li><b>A record is sent once it is committed</b> ({@code Keeper.safe}). An alarm that is sent
 *       earlier and lost in a kill would come again under another id. If the ledger fails, the
 *       record is sent anyway: informing people comes first.
 *   <li><b>A full outbox drops every second reading at once.</b> That is cheap, needs no record of
 *       what was dropped before, and leaves gaps that double with age.
 *   <li><b>Records have a bound of their own on the disk</b>, 200,000 ({@code Outbox.Bounds}), 43
 *       MB. That is 33 years with a fault every two hours ({@code
 *       src/site/markdown/measurements.md}). Beyond it the oldest are dropped, because a subscriber
 *       that returns after years needs recent events. The ledger's {@code event} table still has
 *       all of them. That table has no bound: it is the record of what happened.
 *   <li><b>Messages from an earlier process are read into memory as soon as something is added</b>,
 *       not only once a broker is connected. Otherwise a process that starts during a long outage
 *       would drop all its own readings and keep those of weeks ago.
 *   <li><b>The length that a broker's packet claims is never trusted</b> ({@code BoundedInput}).
 *       The library allocates as much as the length in the header says, up to 256 MB. So one long
 *       message from anybody who may publish, or five bytes from a bad broker, would end the
 *       process. Cut to 128 kB it is still a message: it is acknowledged, and refused as too long
 *       with its {@code request_id}. Closing the connection instead would let a sender keep the
 *       link down.
 *   <li><b>With Homie, its {@code $state} is the only presence topic</b> ({@code Presence}),
 *       because a connection has one will. Without a will, our own {@code availability} would stay
 *       {@code online} after a kill. So it is removed, and the hub is given the Homie topic. {@code
 *       init} is published first on each connection, and {@code ready} is retained last.
 * </ul>
 */
package limnostat.mqtt;
