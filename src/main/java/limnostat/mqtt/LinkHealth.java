package limnostat.mqtt;

import java.util.Map;
import java.util.Optional;

/**
 * The health of the link. Counts are since the start of the process.
 *
 * @param connected whether the broker takes messages now
 * @param inStateS how long it has been connected or disconnected, s
 * @param attempts attempts to connect
 * @param lastCause why the last attempt failed or the last connection ended; kept after the link is
 *     up again
 * @param waiting messages not acknowledged by the broker
 * @param droppedEvents events dropped in favour of newer ones or because they were out of bounds
 * @param thinnedReadings readings dropped to make room
 * @param refusedStates retained values refused because their topic or size was out of bounds
 * @param refusedCommands dropped commands by reason
 */
public record LinkHealth(
    boolean connected,
    double inStateS,
    long attempts,
    Optional<String> lastCause,
    int waiting,
    long droppedEvents,
    long thinnedReadings,
    long refusedStates,
    Map<Inbound.Reason, Long> refusedCommands) {}
