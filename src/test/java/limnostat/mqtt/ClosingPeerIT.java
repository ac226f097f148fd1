package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import javax.net.ServerSocketFactory;
import javax.net.ssl.SSLContext;
import limnostat.config.MqttSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/**
 * A peer that accepts and then closes, again and again, as a proxy without a broker behind it does:
 * threads and open files stay as they are. Some hundreds of attempts; {@code
 * -Dlimnostat.closings=10000} for more.
 */
@Timeout(1800)
class ClosingPeerIT {
  private static final int CLOSINGS = Integer.getInteger("limnostat.closings", 400);
  private static final int LINKS = 12;

  private static final LinkTimes HASTY =
      new LinkTimes(
          Duration.ofSeconds(1),
          Duration.ofSeconds(20),
          Duration.ofSeconds(1),
          Duration.ofMillis(1),
          Duration.ofMillis(2),
          Duration.ofMillis(2),
          Duration.ofSeconds(10));

  @TempDir Path folder;

  private final Map<Closing, Integer> seen = new ConcurrentHashMap<>();

  private void serve(Caller caller) throws IOException {
    Closing[] all = Closing.values();
    Closing closing = all[new Random(7919L * caller.number()).nextInt(all.length)];
    seen.merge(closing, 1, Integer::sum);
    closing.serve(caller);
  }

  @Test
  void threadsAndFilesStayAsTheyAre() throws Exception {
    Certificates good =
        Certificates.make(Files.createDirectory(folder.resolve("good")), "IP:127.0.0.1");
    // A first one loads what is loaded once and stays.
    try (HostileBroker broker = new HostileBroker(HostileBroker.PROPER)) {
      Links.connected(broker.port()).close();
    }
    Held.awaitNoThread();
    long filesBefore = Held.files();
    int most = 0;
    try (HostileBroker plain = new HostileBroker(this::serve);
        HostileBroker encrypted = new HostileBroker(sockets(good), this::serve);
        HostileBroker notTls = new HostileBroker(this::serve)) {
      List<Link> links = new ArrayList<>();
      for (int i = 0; i < LINKS; i++) {
        MqttSettings settings =
            switch (i % 4) {
              case 0, 1 -> Links.plain(plain.port());
              case 2 -> tls(encrypted.port(), good);
              default -> tls(notTls.port(), good);
            };
        Link link =
            new Link(settings, "s" + i, Password.fixed(Optional.empty()), Keeper.NONE, HASTY);
        link.event("event", Links.bytes("x"));
        link.start();
        links.add(link);
      }
      while (attempts(links) < CLOSINGS) {
        Thread.sleep(100);
        most = Math.max(most, Held.threads().size());
      }
      assertTrue(most <= LINKS * Held.THREADS_OF_A_LINK_MAX, most + " threads: " + Held.threads());
      Logger.info("{} attempts, at most {} threads of {} links", attempts(links), most, LINKS);
      links.forEach(Link::close);
    }
    Held.awaitNoThread();
    Links.await("no file left open", () -> Held.files() <= filesBefore + 2);
    assertEquals(Closing.values().length, seen.size(), "kinds: " + seen);
  }

  private static long attempts(List<Link> links) {
    return links.stream().mapToLong(link -> link.health().attempts()).sum();
  }

  private static ServerSocketFactory sockets(Certificates good) throws Exception {
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(ClientKey.managers(good.broker()), null, null);
    return context.getServerSocketFactory();
  }

  private static MqttSettings tls(int port, Certificates trusted) {
    return new MqttSettings(
        true,
        "127.0.0.1",
        port,
        true,
        Optional.of(trusted.authority()),
        Optional.empty(),
        Optional.empty(),
        "base");
  }
}
