package limnostat.mqtt;

import java.util.Map;
import java.util.Optional;

/**
 * How the link is; counts are since the start of the process.
 *
 * @param connected whether the broker takes messages now
 * @param inStateS how long it has been connected or not, s
 * @param attempts attempts to connect
 * @param lastCause why the last attempt failed or the last connection ended; stays after a return
 * @param waiting messages not acknowledged by the broker
 * @param droppedEvents events that had to give way to newer ones or were out of bounds
 * @param thinnedReadings readings that had to give way
 * @param refusedStates retained values not taken, as topic or size was out of bounds
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
