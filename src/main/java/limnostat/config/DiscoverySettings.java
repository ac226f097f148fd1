package limnostat.config;

/**
 * In which conventions of others the broker is told what there is to see and to send.
 *
 * @param hub the device-based discovery of the common open-source home-automation hub
 * @param hubPrefix first levels of its topics
 * @param homie the Homie convention, version 5
 */
public record DiscoverySettings(boolean hub, String hubPrefix, boolean homie) {}
