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
 *
 * <ul>
 *   <li><b>The outbox is in memory and its mirror in the ledger</b> ({@code MessageQueue}, {@link
 *       limnostat.mqtt.Keeper}), not a table that is polled. So the link goes on without a disk,
 *       and one path sends what an earlier process left and what just happened.
 *   <li><b>A record is sent once it is committed</b> ({@code Keeper.safe}). Sent before, and lost
 *       in a kill, an alarm would come again under another id. Where the ledger fails, it is sent
 *       all the same: that people hear of it goes first.
 *   <li><b>Of a full outbox every second reading goes at once.</b> That is cheap, needs no memory
 *       of what went before, and leaves gaps that double with age.
 *   <li><b>Records have a bound of their own on the disk</b>, 200,000 ({@code Outbox.Bounds}), 43
 *       MB: 33 years of a fault every two hours ({@code src/site/markdown/measurements.md}). Beyond
 *       it the oldest go, as who comes after years wants to know of now, and the ledger's {@code
 *       event} table has every one. That table has no bound: it is the record of what happened.
 *   <li><b>What an earlier process left is read into memory as soon as something is added</b>, not
 *       only once a broker is there. Otherwise a process that begins in a long outage would give up
 *       all its own readings and keep those of weeks ago.
 *   <li><b>No packet of a broker is taken into memory by its own word</b> ({@code BoundedInput}).
 *       The library allocates as much as a header's length says, up to 256 MB, so one long message
 *       from anybody who may publish, or five bytes of a bad broker, would end the process. Cut to
 *       128 kB it is still a message: acknowledged, and refused as too long with its {@code
 *       request_id}. To close the connection instead would let a sender keep the link down.
 *   <li><b>With Homie its {@code $state} is the one presence topic</b> ({@code Presence}), as a
 *       connection has one will. Our own {@code availability} without a will would stay {@code
 *       online} after a kill, so it is removed, and the hub is given the other topic. {@code init}
 *       is the first thing said on each connection, {@code ready} the last thing retained.
 * </ul>
 */
package limnostat.mqtt;
