package limnostat.demo;

import java.io.IOException;
import java.util.Optional;
import limnostat.config.MqttSettings;
import limnostat.mqtt.LocalBroker;

/**
 * The demo's broker: its own, a given one, or none.
 *
 * @param child the broker process that was started for the demo, if any
 * @param note what people read about it
 */
public record DemoBroker(MqttSettings settings, Optional<LocalBroker> child, String note)
    implements AutoCloseable {
  private static final int PORT = 1883;
  private static final String BASE_TOPIC = "limnostat";

  /**
   * @throws IllegalArgumentException the given text is not an address
   */
  public static DemoBroker of(Optional<String> given) throws IOException, InterruptedException {
    if (given.isPresent()) {
      String[] parts = given.get().split(":", 2);
      int port = parts.length == 2 ? port(parts[1]) : PORT;
      return new DemoBroker(settings(true, parts[0], port), Optional.empty(), "the given broker");
    }
    if (LocalBroker.find().isEmpty()) {
      return new DemoBroker(
          settings(false, "localhost", PORT),
          Optional.empty(),
          "no MQTT: no mosquitto is installed here (on Debian: apt-get install mosquitto)");
    }
    LocalBroker child = LocalBroker.start();
    return new DemoBroker(
        settings(true, "127.0.0.1", child.port()), Optional.of(child), "a mosquitto of its own");
  }

  private static int port(String text) {
    try {
      int port = Integer.parseInt(text);
      if (port >= 1 && port <= 65535) {
        return port;
      }
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          "--broker: port " + text + " is no number; write HOST:PORT", e);
    }
    throw new IllegalArgumentException("--broker: port " + text + " is not within 1 to 65535");
  }

  private static MqttSettings settings(boolean enabled, String host, int port) {
    return new MqttSettings(
        enabled,
        host,
        port,
        false,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        BASE_TOPIC);
  }

  @Override
  public void close() {
    child.ifPresent(LocalBroker::close);
  }
}
