package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.StreamSupport;
import limnostat.cli.Limnostat;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.LedgerFile;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A start without a disk that the ledger could be on: the program runs, feeds nothing, says so over
 * MQTT, and goes on by itself once the disk is mended.
 */
@Timeout(300)
public class NoDiskIT {
  private static final int SPEED = 10;

  @TempDir Path folder;

  private Path config(TestBroker broker, Path ledger) throws IOException {
    return ConfigText.feedingSoon()
        .withBroker(broker.port())
        .with("ledger.file", "\"" + ledger + "\"")
        .write(folder);
  }

  /**
   * The command {@code run}.
   *
   * @param prefix words before it
   */
  private static Program daemon(List<String> prefix, Path config) throws IOException {
    return java(prefix, Limnostat.class.getName(), "run", "--config", config.toString());
  }

  /** The same by a clock that runs faster, for what takes minutes. */
  private Program hurried(Path config) throws IOException {
    return java(
        List.of(),
        "-Dlimnostat.speed=" + SPEED,
        LongRunProcess.class.getName(),
        config.toString(),
        folder.resolve("book").toString());
  }

  private static Program java(List<String> prefix, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(prefix);
    command.addAll(
        List.of(Program.java(), "-Xmx64m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().keySet().removeAll(List.of("NOTIFY_SOCKET", "JOURNAL_STREAM"));
    return Program.start(builder);
  }

  /** In a name space of its own, so that the disk can be small. */
  private static List<String> onDisk(Path disk, String options, String then) {
    return List.of(
        "unshare",
        "--map-root-user",
        "--mount",
        "sh",
        "-c",
        "mount -t tmpfs -o " + options + " tmpfs '" + disk + "' && " + then + " && exec \"$@\"",
        "sh");
  }

  /** It holds, and says why to whoever listens. */
  private static void assertHolds(Dashboard dashboard, Program daemon, String reason)
      throws Exception {
    daemon.awaitLog(reason);
    daemon.awaitLog("until it can be opened nothing is fed");
    dashboard.await(
        "event",
        m ->
            m.json().at("/cause").asText().equals("ledger_failing")
                && m.json().at("/active").asBoolean());
    // Flow is proven and the water wants chlorine: only what is not booked keeps it off.
    dashboard.awaitState(s -> inhibits(s).equals(List.of("chlorine_not_booked")));
    JsonNode answer = dashboard.ask("{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":\"h1\"}");
    assertEquals("refused", answer.at("/result").asText(), answer.toString());
    assertTrue(
        answer.at("/reason").asText().startsWith("nothing lasts while there is no ledger: "),
        answer.toString());
    assertTrue(
        dashboard.seen("state").stream()
            .allMatch(m -> m.retained() || m.json().at("/outputs/chlorine").asDouble() == 0),
        "it fed");
    dashboard.await("health", m -> m.json().at("/ledger_failing").asBoolean());
    assertTrue(daemon.alive());
  }

  /** A state of this process, and not one that the one before has left at the broker. */
  private static JsonNode live(Dashboard dashboard, Predicate<JsonNode> fits)
      throws InterruptedException {
    return dashboard.await("state", m -> !m.retained() && fits.test(m.json())).json();
  }

  private static List<String> inhibits(JsonNode state) {
    return StreamSupport.stream(state.at("/inhibits").spliterator(), false)
        .map(hold -> hold.at("/cause").asText())
        .toList();
  }

  /** An alarm has a delay of 60 s by the daemon's clock, both ways. */
  private static void awaitAlarm(Dashboard dashboard, String state) throws InterruptedException {
    dashboard.await("alarm/ledger_failing", m -> m.json().at("/state").asText().equals(state));
  }

  /** The same process goes on, and what was told is told to its end. */
  private static void assertGoesOn(Dashboard dashboard, Program daemon) throws Exception {
    daemon.awaitLog("the ledger is open");
    live(dashboard, s -> s.at("/outputs/chlorine").asDouble() == 1);
    assertTrue(daemon.alive());
    daemon.signal("TERM");
    assertEquals(143, daemon.exit(), () -> daemon.err().toString());
  }

  private static List<String> alarms(Path ledger) throws Exception {
    LedgerFile.assertIntact(ledger);
    return List.of(
        LedgerFile.text(
                ledger,
                "SELECT group_concat(json, '|') FROM event WHERE kind = 'alarm'"
                    + " AND json LIKE '%\"ledger_failing\"%'")
            .split("\\|"));
  }

  @Test
  void aFullDiskIsToldAndHeld() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker);
        Program daemon =
            daemon(
                onDisk(disk, "size=6m", "{ cat /dev/zero > '" + disk + "/filler' || true; }"),
                config(broker, disk.resolve("limnostat.db")))) {
      assertHolds(dashboard, daemon, "with 2 MB of room");
      Path mounted = Path.of("/proc/" + daemon.pid() + "/root" + disk);
      assertTrue(Files.size(mounted.resolve("filler")) > 5_000_000, "the process's own disk");
      Files.delete(mounted.resolve("filler"));
      assertGoesOn(dashboard, daemon);
    }
  }

  @Test
  void aDiskThatCannotBeWrittenIsToldAndHeld() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker);
        Program daemon =
            daemon(
                onDisk(disk, "size=6m", "mount -o remount,ro '" + disk + "'"),
                config(broker, disk.resolve("limnostat.db")))) {
      assertHolds(dashboard, daemon, "Read-only file system");
      String pid = "" + daemon.pid();
      Program.output(
          "nsenter",
          "-t",
          pid,
          "-U",
          "-m",
          "--preserve-credentials",
          "mount",
          "-o",
          "remount,rw",
          disk.toString());
      assertGoesOn(dashboard, daemon);
    }
  }

  /** A disk that is mounted late, with a ledger on it: its state counts, and no other. */
  @Test
  void aDiskThatComesLateBringsItsStateAlong() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    Path away = folder.resolve("away");
    Path ledger = disk.resolve("limnostat.db");
    try (TestBroker broker = TestBroker.start()) {
      Path config = config(broker, ledger);
      double givenG;
      try (Dashboard dashboard = new Dashboard(broker);
          Program daemon = hurried(config)) {
        dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
        dashboard.ask("{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":1}");
        dashboard.awaitState(s -> s.at("/mode").asText().equals("manual"));
        daemon.signal("TERM");
        daemon.exit();
        List<Dashboard.Message> states = dashboard.seen("state");
        givenG = states.get(states.size() - 1).json().at("/chlorine_total_g").asDouble();
        assertTrue(givenG > 0);
      }
      Files.move(disk, away);
      try (Dashboard dashboard = new Dashboard(broker);
          Program daemon = hurried(config)) {
        assertHolds(dashboard, daemon, disk.toString());
        awaitAlarm(dashboard, "unacknowledged");
        Files.move(away, disk);
        awaitAlarm(dashboard, "returned unacknowledged");
        JsonNode back = live(dashboard, s -> s.at("/mode").asText().equals("manual"));
        assertTrue(back.at("/chlorine_total_g").asDouble() >= givenG, back.toString());
        assertGoesOn(dashboard, daemon);
      }
    }
    List<String> alarms = alarms(ledger);
    assertEquals(2, alarms.size(), "raised without a ledger, and returned: " + alarms);
    assertFalse(Files.exists(away));
  }

  /** What no mend of the disk helps ends the start as before. */
  @Test
  void anotherProgramsDatabaseEndsTheStart() throws Exception {
    Path ledger = folder.resolve("limnostat.db");
    try (TestBroker broker = TestBroker.start()) {
      try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + ledger);
          Statement statement = connection.createStatement()) {
        statement.executeUpdate("CREATE TABLE theirs (x)");
      }
      try (Program daemon = daemon(List.of(), config(broker, ledger))) {
        assertEquals(1, daemon.exit());
        daemon.awaitLog("another program's database");
      }
    }
  }
}
