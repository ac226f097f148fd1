package limnostat.mqtt;

import java.util.Optional;
import java.util.regex.Pattern;
import limnostat.config.MqttSettings;

/** Names that follow from the settings: addresses, ids and topics. */
record Broker(MqttSettings settings, String siteId) {
  private static final Pattern LOOPBACK =
      Pattern.compile("localhost|127(\\.[0-9]+){3}|\\[?::1]?", Pattern.CASE_INSENSITIVE);

  /** The address, for people. */
  String address() {
    return settings.host() + ":" + settings.port();
  }

  /** The address for the client library. A bare IPv6 address gets its brackets. */
  String uri() {
    String host = settings.host();
    boolean bareIpv6 = host.contains(":") && !host.startsWith("[");
    return (settings.tls() ? "ssl://" : "tcp://")
        + (bareIpv6 ? "[" + host + "]" : host)
        + ":"
        + settings.port();
  }

  /**
   * Fixed for an installation. With a random id the broker would keep a dead duplicate after a
   * broken connection and later publish its will over our presence.
   */
  String clientId() {
    return "limnostat-" + siteId;
  }

  String topic(String subtopic) {
    return settings.baseTopic() + "/" + siteId + "/" + subtopic;
  }

  /** A warning about a connection that anyone on the network path can read. */
  Optional<String> plainTextWarning() {
    return settings.tls() || LOOPBACK.matcher(settings.host()).matches()
        ? Optional.empty()
        : Optional.of(
            "the connection to the broker "
                + address()
                + " is not encrypted: whoever can listen on the network reads the password and can"
                + " send commands; use TLS, or a network of its own");
  }
}
