package limnostat.mqtt;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.util.Optional;
import javax.net.ssl.SSLException;
import limnostat.config.ConfigurationException;
import limnostat.config.MqttSettings;
import org.eclipse.paho.client.mqttv3.MqttException;

/** Why there is no connection, in words for a person, and whether waiting alone may fix it. */
final class ConnectionFault extends Exception {
  private static final long serialVersionUID = 1L;

  /** Registered port number of secure-mqtt. */
  private static final int TLS_PORT = 8883;

  private final boolean mendsItself;

  ConnectionFault(String text, boolean mendsItself, Throwable cause) {
    super(text, cause);
    this.mendsItself = mendsItself;
  }

  boolean mendsItself() {
    return mendsItself;
  }

  /** The broker has not answered in time. */
  static ConnectionFault silent(Broker broker, String what) {
    return new ConnectionFault(
        "broker " + broker.address() + " gives no " + what + "; is it frozen, or not a broker?",
        true,
        null);
  }

  /**
   * Put before the last cause once connections have been lost repeatedly. The text has no counts,
   * so it is logged only once.
   */
  static ConnectionFault thrownOut(Broker broker, ConnectionFault last) {
    return new ConnectionFault(
        "broker "
            + broker.address()
            + " ends each connection within seconds; another client with the id "
            + broker.clientId()
            + " may be connected (give each installation its own site id), or the broker forbids a"
            + " topic below "
            + broker.topic("")
            + "; last cause: "
            + last.getMessage(),
        true,
        last);
  }

  /** Earlier connections could not be ended, and each further one would leave threads behind. */
  static ConnectionFault leftOver() {
    return new ConnectionFault(
        "threads of earlier connections do not end, so no further one is begun; restart the program"
            + " to have the link again",
        false,
        null);
  }

  static ConnectionFault of(Broker broker, Throwable failure) {
    if (failure instanceof ConnectionFault trouble) {
      return trouble;
    }
    String where = "broker " + broker.address();
    if (failure instanceof ConfigurationException e) {
      return new ConnectionFault(where + ": " + e.getMessage(), false, e);
    }
    if (failure instanceof MqttException e) {
      Optional<ConnectionFault> refusal = refusal(broker, where, e);
      if (refusal.isPresent()) {
        return refusal.get();
      }
    }
    Optional<NotMqtt> wrong = find(failure, NotMqtt.class);
    if (wrong.isPresent()) {
      return new ConnectionFault(
          where
              + " sent what no broker may: "
              + wrong.get().getMessage()
              + "; is it a broker, and nothing in between that changes what it sends?",
          true,
          failure);
    }
    // A board without a battery-backed clock starts with a wrong date, so these two resolve
    // themselves.
    if (find(failure, CertificateExpiredException.class).isPresent()
        || find(failure, CertificateNotYetValidException.class).isPresent()) {
      return new ConnectionFault(
          where + ": its certificate is not valid at this date; check the clock, then renew it",
          true,
          failure);
    }
    Optional<CertificateException> certificate = find(failure, CertificateException.class);
    if (certificate.isPresent()) {
      return new ConnectionFault(
          where
              + ": its certificate is not accepted ("
              + certificate.get().getMessage()
              + "); check the CA file, and that the certificate names this host",
          false,
          failure);
    }
    if (find(failure, SSLException.class).isPresent()) {
      return new ConnectionFault(
          where + ": TLS failed (" + root(failure).getMessage() + "); is this its TLS port?",
          true,
          failure);
    }
    if (root(failure) instanceof RuntimeException || root(failure) instanceof Error) {
      return new ConnectionFault(
          where + ": the link failed on what it sent (" + root(failure) + ")", true, failure);
    }
    return new ConnectionFault(where + ": " + network(broker, root(failure)), true, failure);
  }

  /** What the broker itself refused: the return codes of MQTT 3.1.1, section 3.2.2.3. */
  private static Optional<ConnectionFault> refusal(Broker broker, String where, MqttException e) {
    return switch (e.getReasonCode()) {
      case MqttException.REASON_CODE_INVALID_PROTOCOL_VERSION ->
          Optional.of(new ConnectionFault(where + " does not speak MQTT 3.1.1", false, e));
      case MqttException.REASON_CODE_INVALID_CLIENT_ID ->
          Optional.of(
              new ConnectionFault(where + " refuses the client id " + broker.clientId(), false, e));
      case MqttException.REASON_CODE_BROKER_UNAVAILABLE ->
          Optional.of(new ConnectionFault(where + " is not ready", true, e));
      case MqttException.REASON_CODE_FAILED_AUTHENTICATION,
          MqttException.REASON_CODE_NOT_AUTHORIZED ->
          Optional.of(
              new ConnectionFault(
                  where
                      + " refuses the user name or the password (user "
                      + broker.settings().user().orElse("not given")
                      + "); check the user and the password file",
                  false,
                  e));
      case MqttException.REASON_CODE_CLIENT_TIMEOUT ->
          Optional.of(new ConnectionFault(where + " no longer answers", true, e));
      default -> Optional.empty();
    };
  }

  private static String network(Broker broker, Throwable root) {
    if (root instanceof UnknownHostException) {
      return "the host name cannot be resolved; check the host and the network";
    }
    if (root instanceof ConnectException) {
      return "nothing listens there (" + root.getMessage() + "); is the broker running?";
    }
    if (root instanceof NoRouteToHostException || root instanceof SocketTimeoutException) {
      return "cannot be reached (" + root.getMessage() + ")";
    }
    if (root instanceof EOFException || root instanceof SocketException) {
      return "it closed the connection" + portDoubt(broker.settings());
    }
    return root.toString();
  }

  /** A port of the other kind (TLS or plain) closes the connection without an error message. */
  private static String portDoubt(MqttSettings settings) {
    if (settings.tls()) {
      return "; is this its TLS port?";
    }
    return settings.port() == TLS_PORT
        ? "; " + TLS_PORT + " is a TLS port by custom, and mqtt.tls is false"
        : "";
  }

  private static Throwable root(Throwable failure) {
    Throwable root = failure;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return root;
  }

  private static <T extends Throwable> Optional<T> find(Throwable failure, Class<T> kind) {
    for (Throwable t = failure; t != null; t = t.getCause()) {
      if (kind.isInstance(t)) {
        return Optional.of(kind.cast(t));
      }
    }
    return Optional.empty();
  }
}
