package limnostat.mqtt;

/**
 * How others see whether we are there: a retained topic and its words. The protocol has one will a
 * connection, so there is one such topic.
 *
 * @param topic whole
 * @param init said first of all on each connection; empty: nothing is
 * @param down said last at an orderly stop
 * @param lost what the broker says for us when the connection breaks
 */
public record Presence(String topic, String init, String down, String lost) {}
