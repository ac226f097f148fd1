package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLServerSocket;
import javax.net.ssl.SSLServerSocketFactory;
import limnostat.config.MqttSettings;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Brokers with certificates of every wrong kind, and peers that only pretend to shake hands: no
 * connection, a cause that is named, and the password never goes out.
 */
@Timeout(120)
class WrongCertificateIT {
  private static final Duration DAY = Duration.ofDays(1);

  private static final LinkTimes SHORT =
      new LinkTimes(
          Duration.ofSeconds(1),
          Duration.ofSeconds(20),
          Duration.ofSeconds(1),
          Duration.ofMillis(50),
          Duration.ofMillis(50),
          Duration.ofMillis(50),
          Duration.ofSeconds(2));

  @TempDir static Path folder;
  private static Authority authority;

  /** Connections on which a CONNECT came, with whatever is in it. */
  private final AtomicInteger betrayed = new AtomicInteger();

  @BeforeAll
  static void make() throws Exception {
    authority = Authority.make(Files.createDirectory(folder.resolve("ca")));
  }

  @BeforeEach
  void none() {
    betrayed.set(0);
  }

  private void serve(Caller caller) throws IOException {
    caller.next();
    betrayed.incrementAndGet();
  }

  private static SSLServerSocketFactory sockets(MqttSettings.Identity shown) throws Exception {
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(ClientKey.managers(shown), null, null);
    return context.getServerSocketFactory();
  }

  private void assertRefused(MqttSettings.Identity shown, String words) throws Exception {
    try (HostileBroker broker = new HostileBroker(sockets(shown), this::serve)) {
      assertRefused(broker, words);
    }
  }

  /** Several attempts, so that none of them is the one that lets a word out. */
  private void assertRefused(HostileBroker broker, String words) throws InterruptedException {
    MqttSettings settings =
        new MqttSettings(
            true,
            "127.0.0.1",
            broker.port(),
            true,
            Optional.of(authority.certificate()),
            Optional.of("pool"),
            Optional.empty(),
            "base");
    try (Link link = Links.started(settings, Optional.of("hunter".toCharArray()), SHORT)) {
      Links.await("three attempts", () -> link.health().attempts() > 3);
      // On a busy machine an attempt may end before it has begun to shake hands.
      Links.await(
          words + " in the cause",
          () -> link.health().lastCause().filter(cause -> cause.contains(words)).isPresent());
      assertFalse(link.health().connected());
    }
    Held.awaitNoThread();
    assertEquals(0, betrayed.get(), "a CONNECT, and the password in it, went out");
  }

  /** Or all of the others might be refused for no reason of theirs. */
  @Test
  void aRightOneIsTaken() throws Exception {
    MqttSettings.Identity good =
        authority.sign("good", DAY.negated(), DAY, Authority.GOOD, "extendedKeyUsage=serverAuth");
    try (HostileBroker broker = new HostileBroker(sockets(good), this::serve)) {
      MqttSettings settings =
          new MqttSettings(
              true,
              "127.0.0.1",
              broker.port(),
              true,
              Optional.of(authority.certificate()),
              Optional.empty(),
              Optional.empty(),
              "base");
      try (Link link = Links.started(settings, Optional.empty(), SHORT)) {
        Links.await("a CONNECT, " + link.health(), () -> betrayed.get() > 0);
      }
    }
  }

  @Test
  void expired() throws Exception {
    assertRefused(
        authority.sign("expired", DAY.multipliedBy(-9), DAY.negated(), Authority.GOOD),
        "not valid at this date");
  }

  @Test
  void notYetValid() throws Exception {
    assertRefused(
        authority.sign("early", DAY, DAY.multipliedBy(9), Authority.GOOD),
        "not valid at this date");
  }

  @Test
  void forAnotherHostOrForNone() throws Exception {
    for (String names :
        List.of(
            "subjectAltName=IP:127.0.0.2", "subjectAltName=DNS:*", "basicConstraints=CA:FALSE")) {
      assertRefused(
          authority.sign("n" + names.hashCode(), DAY.negated(), DAY, names), "names this host");
    }
  }

  @Test
  void forAClientAndNotForABroker() throws Exception {
    assertRefused(
        authority.sign("client", DAY.negated(), DAY, Authority.GOOD, "extendedKeyUsage=clientAuth"),
        "certificate is not accepted");
  }

  @Test
  void ofAnotherAuthority() throws Exception {
    Authority other = Authority.make(Files.createDirectory(folder.resolve("other")));
    assertRefused(
        other.sign("stranger", DAY.negated(), DAY, Authority.GOOD), "certificate is not accepted");
  }

  /** A broker of one site that makes itself an authority. */
  @Test
  void signedByOneWhoMayNotSign() throws Exception {
    MqttSettings.Identity site =
        authority.sign("site", DAY.negated(), DAY, Authority.GOOD, "basicConstraints=CA:FALSE");
    Path pretender = Files.createDirectory(folder.resolve("pretender"));
    Authority false1 = Authority.make(pretender);
    Files.copy(
        site.certificate(),
        false1.certificate(),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    Files.copy(
        site.key(), pretender.resolve("ca.key"), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    MqttSettings.Identity forged = false1.sign("forged", DAY.negated(), DAY, Authority.GOOD);
    Files.writeString(
        forged.certificate(),
        Files.readString(forged.certificate()) + Files.readString(site.certificate()));
    assertRefused(forged, "certificate is not accepted");
  }

  /** NIST SP 800-131A: 2048 bits. Java's own bound is 1024, so the second is ours to refuse. */
  @ParameterizedTest
  @ValueSource(ints = {768, 1024, 2040})
  void aKeyThatIsTooShort(int bits) throws Exception {
    assertRefused(
        authority.sign(
            "weak",
            List.of("-newkey", "rsa:" + bits, "-nodes"),
            DAY.negated(),
            DAY,
            Authority.GOOD),
        "certificate is not accepted");
  }

  @Test
  void onlyAnOldVersionOfTheProtocol() throws Exception {
    MqttSettings.Identity good = authority.sign("old", DAY.negated(), DAY, Authority.GOOD);
    SSLServerSocketFactory sockets = sockets(good);
    javax.net.ServerSocketFactory old =
        new javax.net.ServerSocketFactory() {
          @Override
          public java.net.ServerSocket createServerSocket(int port) throws IOException {
            throw new IOException("not used");
          }

          @Override
          public java.net.ServerSocket createServerSocket(int port, int backlog)
              throws IOException {
            throw new IOException("not used");
          }

          @Override
          public java.net.ServerSocket createServerSocket(
              int port, int backlog, java.net.InetAddress address) throws IOException {
            SSLServerSocket socket =
                (SSLServerSocket) sockets.createServerSocket(port, backlog, address);
            socket.setEnabledProtocols(new String[] {"TLSv1.1"});
            return socket;
          }
        };
    try (HostileBroker broker = new HostileBroker(old, this::serve)) {
      assertRefused(broker, "TLS");
    }
  }

  @Test
  void plainMqttOnTheOtherPort() throws Exception {
    try (HostileBroker broker =
        new HostileBroker(
            caller -> {
              caller.send(Frames.connack(0));
              caller.socket().getInputStream().readAllBytes();
            })) {
      // Its four bytes are less than the head of a TLS record, so the client waits for more.
      assertRefused(broker, "or not a broker?");
    }
  }

  /** A byte now and then, so that no time limit of a single read ever ends it. */
  @Test
  void aHandshakeThatDripsForEver() throws Exception {
    byte[] record = new byte[500];
    record[0] = 22; // handshake
    record[1] = 3;
    record[2] = 3;
    record[3] = 1;
    record[4] = (byte) 0xE0;
    try (HostileBroker broker =
        new HostileBroker(
            caller -> {
              Socket socket = caller.socket();
              for (byte b : record) {
                socket.getOutputStream().write(b);
                pause();
              }
            })) {
      assertRefused(broker, "no answer to a connect");
    }
  }

  @Test
  void aHandshakeThatNeverBegins() throws Exception {
    try (HostileBroker broker =
        new HostileBroker(
            caller -> {
              InputStream in = caller.socket().getInputStream();
              in.readAllBytes();
            })) {
      assertRefused(broker, "no answer to a connect");
    }
  }

  private static void pause() throws IOException {
    try {
      Thread.sleep(200);
    } catch (InterruptedException e) {
      throw new IOException(e);
    }
  }
}
