package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import limnostat.config.MqttSettings;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BrokerTest {
  @ParameterizedTest
  @CsvSource({
    "broker.lan, false, true, tcp://broker.lan:1883",
    "broker.lan, true, false, ssl://broker.lan:1883",
    "192.0.2.7, false, true, tcp://192.0.2.7:1883",
    "localhost, false, false, tcp://localhost:1883",
    "127.0.1.1, false, false, tcp://127.0.1.1:1883",
    "127.example.org, false, true, tcp://127.example.org:1883",
    "::1, false, false, tcp://[::1]:1883",
    "[::1], false, false, tcp://[::1]:1883",
    "2001:db8::1, false, true, tcp://[2001:db8::1]:1883",
  })
  void addressAndWarning(String host, boolean tls, boolean warned, String uri) {
    MqttSettings settings =
        new MqttSettings(
            true, host, 1883, tls, Optional.empty(), Optional.empty(), Optional.empty(), "b");
    assertEquals(uri, new Broker(settings, "s").uri());
    assertEquals(warned, Link.warning(settings).isPresent());
  }
}
