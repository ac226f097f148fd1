package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateNotYetValidException;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.net.ssl.SSLHandshakeException;
import limnostat.config.MqttSettings;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class ConnectionFaultTest {
  private static final Broker BROKER = broker(1883, false);

  private static Broker broker(int port, boolean tls) {
    return new Broker(
        new MqttSettings(
            true, "box", port, tls, Optional.empty(), Optional.of("pool"), Optional.empty(), "b"),
        "s");
  }

  /** A port of the other kind says nothing but that. */
  @Test
  void aClosedConnectionAsksForTheKindOfPort() {
    for (Exception closed : List.of(new EOFException(), new SocketException("Connection reset"))) {
      Throwable failure = new MqttException(32109, closed);
      String where = "broker box:";
      assertEquals(
          where + "1883: it closed the connection",
          ConnectionFault.of(BROKER, failure).getMessage());
      assertEquals(
          where + "1883: it closed the connection; is this its TLS port?",
          ConnectionFault.of(broker(1883, true), failure).getMessage());
      assertEquals(
          where
              + "8883: it closed the connection; 8883 is a TLS port by custom, and mqtt.tls is false",
          ConnectionFault.of(broker(8883, false), failure).getMessage());
    }
  }

  /** Return codes 1 to 5 as in table 3.1 of MQTT 3.1.1. */
  static Stream<Arguments> causes() {
    return Stream.of(
        Arguments.of(new MqttException(1), "3.1.1", false),
        Arguments.of(new MqttException(2), "client id limnostat-s", false),
        Arguments.of(new MqttException(3), "not ready", true),
        Arguments.of(new MqttException(4), "password (user pool)", false),
        Arguments.of(new MqttException(5), "password (user pool)", false),
        Arguments.of(new MqttException(32000), "no longer answers", true),
        Arguments.of(new MqttException(32109, new EOFException()), "closed", true),
        Arguments.of(new MqttException(32103, new ConnectException("x")), "running?", true),
        Arguments.of(new UnknownHostException("box"), "resolved", true),
        Arguments.of(tls(new CertificateException("path")), "CA file", false),
        Arguments.of(tls(new CertificateNotYetValidException()), "clock", true),
        Arguments.of(tls(new EOFException("cut")), "TLS port", true));
  }

  private static Throwable tls(Throwable cause) {
    return new MqttException(new SSLHandshakeException("no").initCause(cause));
  }

  @ParameterizedTest
  @MethodSource("causes")
  void namesTheCauseTheBrokerAndTheMend(Throwable failure, String words, boolean mendsItself) {
    ConnectionFault trouble = ConnectionFault.of(BROKER, failure);
    assertTrue(trouble.getMessage().contains("box:1883"), trouble.getMessage());
    assertTrue(trouble.getMessage().contains(words), trouble.getMessage());
    assertEquals(mendsItself, trouble.mendsItself());
  }
}
