package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import limnostat.mqtt.Caller;
import limnostat.mqtt.HostileBroker;
import limnostat.mqtt.Malice;
import limnostat.mqtt.WrongPacket;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The packaged daemon, and single packets that ended one: it goes on, and no scan is late. */
@Timeout(180)
class OnePacketIT {
  private static final String COMMAND = "limnostat/garden/command";
  private static final Pattern STOPPED =
      Pattern.compile("stopped, outputs off; (\\d+) scans, (\\d+) of them late.*");

  @TempDir Path folder;

  private Program daemon(int port) throws IOException {
    Path config =
        ConfigText.feedingSoon().withBroker(port).with("mqtt.homie", "true").write(folder);
    return Program.limnostat("run", "--config", config.toString());
  }

  private static WrongPacket kind(String name) {
    return WrongPacket.all(COMMAND).stream()
        .filter(wrong -> wrong.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** Each comes on a connection of its own; then the broker keeps the rules. */
  @Test
  void eachCostsItsConnectionIsToldOnceAndNoScanIsLate() throws Exception {
    Queue<WrongPacket> kinds =
        new ConcurrentLinkedQueue<>(
            List.of(
                kind("character 128512"),
                kind("QoS 3, seven bytes"),
                kind("PUBACK of another"),
                kind("second CONNACK")));
    int expected = kinds.size();
    try (HostileBroker broker =
            new HostileBroker(
                caller -> {
                  WrongPacket wrong = kinds.poll();
                  if (wrong == null) {
                    caller.serveForEver();
                  } else {
                    wrong.serve(caller);
                  }
                });
        Program daemon = daemon(broker.port())) {
      daemon.awaitLog("MQTT link is up again");
      assertEquals(expected + 1, broker.accepted());
      assertEquals(expected, lines(daemon, "MQTT link down: ").size(), daemon.err().toString());
      for (String section : List.of("3.3.2.1", "3.3.1.2", "3.4)", "3.2)")) {
        assertEquals(1, lines(daemon, section).size(), section + ": " + daemon.err());
      }
      daemon.signal("TERM");
      assertEquals(143, daemon.exit());
      Matcher stopped = STOPPED.matcher(String.join("\n", daemon.err()));
      assertTrue(stopped.find(), daemon.err().toString());
      assertEquals("0", stopped.group(2), stopped.group());
    }
  }

  /** Wrong in every way that it can be, four connections long; then it keeps the rules. */
  @Test
  void aMaliciousBrokerCostsConnectionsAndNoScan() throws Exception {
    Malice malice = new Malice(3);
    AtomicInteger connections = new AtomicInteger();
    try (HostileBroker broker =
        new HostileBroker(
            caller -> {
              if (connections.incrementAndGet() <= 4) {
                malice.serve(caller);
              } else {
                caller.serveForEver();
              }
            })) {
      Path config =
          ConfigText.feedingSoon()
              .withBroker(broker.port())
              .with("mqtt.base_topic", "\"base\"")
              .write(folder);
      try (Program daemon = Program.limnostat("run", "--config", config.toString())) {
        Program.await("four bad connections", () -> connections.get() > 4);
        daemon.awaitLog("MQTT link is up again");
        assertTrue(malice.exchanges() > 50, malice.exchanges() + " exchanges");
        daemon.signal("TERM");
        assertEquals(143, daemon.exit(), daemon.err().toString());
        Matcher stopped = STOPPED.matcher(String.join("\n", daemon.err()));
        assertTrue(stopped.find(), daemon.err().toString());
        assertEquals("0", stopped.group(2), stopped.group());
      }
    }
  }

  private static List<String> lines(Program daemon, String part) {
    return daemon.err().stream().filter(line -> line.contains(part)).toList();
  }

  /** With a wildcard anybody who may publish below the device would choose what comes in. */
  @Test
  void nothingIsAskedForThatIsNotOurs() throws Exception {
    Queue<String> filters = new ConcurrentLinkedQueue<>();
    try (HostileBroker broker =
            new HostileBroker(
                caller -> {
                  while (true) {
                    Caller.Packet packet = caller.next();
                    if (packet.type() == Caller.SUBSCRIBE) {
                      filters.addAll(packet.filters());
                    }
                    caller.answer(packet);
                  }
                });
        Program daemon = daemon(broker.port())) {
      daemon.awaitLog("is up");
      assertTrue(filters.contains(COMMAND), filters.toString());
      assertTrue(filters.contains("homie/5/limnostat-garden/control/mode/set"), filters.toString());
      assertTrue(filters.stream().noneMatch(f -> f.matches(".*[+#].*")), filters.toString());
    }
  }

  /** Left with a real broker, where it would come at every connection. */
  @Test
  void aRetainedMessageOnATopicThatTheLibraryFailsOnNeverComes() throws Exception {
    try (TestBroker broker = TestBroker.start()) {
      broker.publish("homie/5/limnostat-garden/\ud83d\ude00/x/set", "1", "-r");
      try (Program daemon = daemon(broker.port());
          Dashboard dashboard = new Dashboard(broker, "state")) {
        dashboard.awaitState(state -> state.at("/mode").asText().equals("auto"));
        broker.publish("homie/5/limnostat-garden/\uff01/x/set", "1");
        broker.publish("homie/5/limnostat-garden/control/mode/set", "off");
        dashboard.awaitState(state -> state.at("/mode").asText().equals("off"));
        assertTrue(daemon.alive());
        assertEquals(List.of(), lines(daemon, "MQTT link down"));
      }
    }
  }
}
