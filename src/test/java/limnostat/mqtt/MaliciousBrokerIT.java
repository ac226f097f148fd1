package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.tinylog.Logger;

/**
 * Links and a broker that speaks each packet wrongly, by seed: nothing is thrown that nobody
 * catches; threads, memory and open files stay as they are; and each link is as good as before when
 * the broker is. As many exchanges as fit into 50 s, at most 200,000; {@code
 * -Dlimnostat.exchanges=2000000 -Dlimnostat.malice_s=600 -Dlimnostat.seed=7} for more and others.
 */
@Timeout(3600)
class MaliciousBrokerIT {
  private static final long EXCHANGES = Long.getLong("limnostat.exchanges", 200_000);
  private static final long LIMIT_S = Long.getLong("limnostat.malice_s", 50);
  private static final long SEED = Long.getLong("limnostat.seed", 1);
  private static final int LINKS = 16;

  /** Of what is left after a collection: twenty times what the links hold at most. */
  private static final long MORE_BYTES_MAX = 8 << 20;

  private static final LinkTimes HASTY =
      new LinkTimes(
          Duration.ofSeconds(2),
          Duration.ofSeconds(20),
          Duration.ofSeconds(2),
          Duration.ofMillis(1),
          Duration.ofMillis(2),
          Duration.ofMillis(2),
          Duration.ofSeconds(10));

  private final Queue<Throwable> uncaught = new ConcurrentLinkedQueue<>();
  private final TreeMap<String, Integer> causes = new TreeMap<>();

  @Test
  void everythingStaysAsItIs() throws Exception {
    Thread.UncaughtExceptionHandler before = Thread.getDefaultUncaughtExceptionHandler();
    Thread.setDefaultUncaughtExceptionHandler((thread, thrown) -> uncaught.add(thrown));
    try {
      attack();
    } finally {
      Thread.setDefaultUncaughtExceptionHandler(before);
    }
    assertEquals(List.of(), List.copyOf(uncaught), "seed " + SEED);
  }

  private void attack() throws Exception {
    // What is loaded once and stays.
    try (HostileBroker proper = new HostileBroker(HostileBroker.PROPER)) {
      Links.connected(proper.port()).close();
    }
    Held.awaitNoThread();
    long bytesBefore = Held.liveBytes();
    long filesBefore = Held.files();
    int most = 0;
    Malice malice = new Malice(SEED);
    List<Link> links = new ArrayList<>();
    long beganNanos = System.nanoTime();
    try (HostileBroker broker = new HostileBroker(malice)) {
      for (int i = 0; i < LINKS; i++) {
        Link link =
            new Link(
                Links.plain(broker.port()),
                "s" + i,
                Password.fixed(Optional.empty()),
                Keeper.NONE,
                HASTY);
        link.start();
        links.add(link);
      }
      int rounds = 0;
      while (malice.exchanges() < EXCHANGES && tookS(beganNanos) < LIMIT_S) {
        for (Link link : links) {
          use(link, rounds);
        }
        if (rounds++ % 50 == 0) {
          most = Math.max(most, Held.threads().size());
        }
        Thread.sleep(2);
      }
      assertTrue(most <= LINKS * Held.THREADS_OF_A_LINK_MAX, most + " threads: " + Held.threads());
      Logger.info(
          "seed {}: {} exchanges in {} connections, {} s; at most {} threads of {} links; {}",
          SEED,
          malice.exchanges(),
          broker.accepted(),
          tookS(beganNanos),
          most,
          LINKS,
          causes);
      assertTrue(malice.exchanges() > 5000, malice.exchanges() + " exchanges");
      assertTrue(causes.size() > 10, "kinds of ends: " + causes);
    }
    for (Link link : links) {
      link.close();
    }
    Held.awaitNoThread();
    Links.await("no file left open", () -> Held.files() <= filesBefore + 2);
    links.clear();
    long more = Held.liveBytes() - bytesBefore;
    assertTrue(more < MORE_BYTES_MAX, more + " bytes more");
  }

  /** Something to send, and whatever came in is taken. */
  private void use(Link link, int round) {
    if (link.health().waiting() < 30) {
      link.event("event", Links.bytes("event " + round));
      link.retain("state", Links.bytes("state " + round));
    }
    for (Optional<Inbound> in = link.pollCommand(); in.isPresent(); in = link.pollCommand()) {
      assertTrue(bytes(in.get()) <= Inbox.PAYLOAD_BYTES_MAX);
    }
    link.health()
        .lastCause()
        .ifPresent(cause -> causes.merge(cause.replaceAll(".*?:\\d+:? ", ""), 1, Integer::sum));
  }

  private static int bytes(Inbound in) {
    return in instanceof Inbound.Refused refused
        ? bytes(refused.what())
        : ((Inbound.Command) in).payload().length;
  }

  private static long tookS(long beganNanos) {
    return Duration.ofNanos(System.nanoTime() - beganNanos).toSeconds();
  }
}
