package limnostat.mqtt;

import java.time.Duration;

/**
 * The link's own time limits. All engineering judgement, from trials against a broker that was
 * killed, frozen or silent.
 *
 * @param answer limit for connecting and for subscribing; the library's own does not cover a broker
 *     that accepts and says nothing
 * @param keepAlive silence after which the library asks the broker for a sign of life, whole s; a
 *     loss shows after twice that
 * @param acknowledgement limit for any acknowledgement while messages are under way
 * @param firstPause pause after the first failure, doubled by each further one
 * @param longestPause where the doubling ends
 * @param slowPause pause after a failure that waiting does not mend
 * @param settled a connection that lasted this long counts as good
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
