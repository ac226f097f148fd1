package limnostat.config;

import java.nio.file.Path;
import java.util.Optional;

/**
 * The broker.
 *
 * @param enabled if false, no connection is ever attempted
 * @param host name or address
 * @param port 1–65535
 * @param tls whether the connection is encrypted; then the broker's certificate is always checked
 * @param caFile PEM file of a private certificate authority; absent: the system's authorities
 * @param user user name; absent: none
 * @param passwordFile file that holds the password; a systemd credential {@code mqtt-password}
 *     takes precedence
 * @param baseTopic first levels of every topic, without the site's id
 * @param outboxMessages messages that may wait for the broker
 * @param identity what the program presents to a broker that asks for a certificate; absent:
 *     nothing
 */
public record MqttSettings(
    boolean enabled,
    String host,
    int port,
    boolean tls,
    Optional<Path> caFile,
    Optional<String> user,
    Optional<Path> passwordFile,
    String baseTopic,
    int outboxMessages,
    Optional<Identity> identity) {

  /** About three days at one reading per minute (engineering judgement). */
  public static final int OUTBOX_MESSAGES = 5000;

  /**
   * Two PEM files.
   *
   * @param certificate the certificate with its chain up to the authority
   * @param key its private key, PKCS #8 without a passphrase
   */
  public record Identity(Path certificate, Path key) {}

  /** With the default outbox and no client certificate. */
  public MqttSettings(
      boolean enabled,
      String host,
      int port,
      boolean tls,
      Optional<Path> caFile,
      Optional<String> user,
      Optional<Path> passwordFile,
      String baseTopic) {
    this(
        enabled,
        host,
        port,
        tls,
        caFile,
        user,
        passwordFile,
        baseTopic,
        OUTBOX_MESSAGES,
        Optional.empty());
  }
}
