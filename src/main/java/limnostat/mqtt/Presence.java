package limnostat.mqtt;

/**
 * How other programs see whether we are present: a retained topic and its values. The protocol has
 * one will per connection, so there is only one such topic.
 *
 * @param topic full topic
 * @param init published first on each connection; empty if nothing is
 * @param down published last at an orderly stop
 * @param lost published by the broker for us when the connection breaks
 */
public record Presence(String topic, String init, String down, String lost) {}
