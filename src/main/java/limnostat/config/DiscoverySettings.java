package limnostat.config;

/**
 * Which third-party conventions are used to announce on the broker what can be read and set.
 *
 * @param hub the device-based discovery of the common open-source home-automation hub
 * @param hubPrefix first levels of its topics
 * @param homie the Homie convention, version 5
 */
public record DiscoverySettings(boolean hub, String hubPrefix, boolean homie) {}
