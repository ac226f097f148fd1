package limnostat.mqtt;

import java.time.Duration;

/**
 * The link's own time limits. All are engineering judgement, from trials with a broker that was
 * killed, frozen or silent.
 *
 * @param answer limit for connecting and for subscribing; the library's own limit does not cover a
 *     broker that accepts the connection and then stays silent
 * @param keepAlive silence after which the library pings the broker, whole s; a loss is noticed
 *     after twice that time
 * @param acknowledgement limit for any acknowledgement while messages are in flight
 * @param firstPause pause after the first failure, doubled after each further one
 * @param longestPause upper limit of the doubled pause
 * @param slowPause pause after a failure that waiting does not fix
 * @param settled how long a connection must last to count as good
 */
record LinkTimes(
    Duration answer,
    Duration keepAlive,
    Duration acknowledgement,
    Duration firstPause,
    Duration longestPause,
    Duration slowPause,
    Duration settled) {

  static final LinkTimes DEFAULT =
      new LinkTimes(
          Duration.ofSeconds(6),
          Duration.ofSeconds(20),
          Duration.ofSeconds(60),
          Duration.ofSeconds(1),
          Duration.ofSeconds(60),
          Duration.ofMinutes(5),
          Duration.ofSeconds(10));
}
