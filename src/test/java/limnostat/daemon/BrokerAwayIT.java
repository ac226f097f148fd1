package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/**
 * A broker that is away for days, and processes that are killed meanwhile: every transition of an
 * alarm and every day's total arrives once by its id, in order.
 */
@Timeout(300)
class BrokerAwayIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int HOURS = 72;

  @TempDir Path folder;

  private Path config(int port) throws IOException {
    return ConfigText.feedingSoon()
        .with("ledger.readings_every", "\"60 s\"")
        .withBroker(port)
        .write(folder);
  }

  private static Program process(Path config, int earlier, double hours, long pauseUs)
      throws IOException {
    return Program.ofTests(
        AwayProcess.class, config.toString(), "" + earlier, "" + hours, "" + pauseUs);
  }

  @Test
  void threeDaysOfAlarmsAndTotalsArriveOnceAndInOrder() throws Exception {
    int port = TestBroker.freePort();
    try (Program daemon = process(config(port), 0, HOURS, 0)) {
      daemon.awaitOut("simulated");
      List<String> expected = printed(daemon);
      try (TestBroker broker = TestBroker.patient(port, folder);
          Dashboard dashboard = new Dashboard(broker)) {
        Program.await("all", () -> lasting(dashboard).size() >= expected.size());
        Program.await("the newest reading", () -> spanH(readings(dashboard)) > HOURS - 1);
        assertSame(expected, lasting(dashboard));
        List<Double> times =
            readings(dashboard).stream().map(m -> m.json().at("/time_unix_s").asDouble()).toList();
        assertEquals(times.stream().sorted().toList(), times, "readings in order");
        assertTrue(times.size() > HOURS * 10, "they thinned out, but not to " + times.size());
        Logger.info("{} h: {} alarms and days, {} readings", HOURS, expected.size(), times.size());
      }
    }
  }

  @Test
  void aKillInTheMiddleOfSendingLosesNothingAndDoublesNoId() throws Exception {
    int port = TestBroker.freePort();
    Path config = config(port);
    List<String> expected;
    try (Program daemon = process(config, 0, HOURS, 0)) {
      daemon.awaitOut("simulated");
      expected = printed(daemon);
      try (TestBroker broker = TestBroker.patient(port, folder);
          Dashboard dashboard = new Dashboard(broker)) {
        Program.await("some", () -> lasting(dashboard).size() >= 40);
        daemon.kill();
        int before = lasting(dashboard).size();
        assertTrue(before < expected.size(), "killed in the middle: " + before);
        try (Program next = process(config, 1, 0, 0)) {
          next.awaitOut("simulated");
          Program.await("all", () -> lasting(dashboard).size() >= expected.size());
          assertSame(expected, lasting(dashboard));
          Logger.info(
              "killed after {} of {}; {} messages for {} ids",
              before,
              expected.size(),
              dashboard.seen("event").size(),
              byId(dashboard).size());
        }
      }
    }
  }

  /** What arrived is what the journal has: both are written in one commit. */
  @Test
  void killsWhileAlarmsComeAndGoLoseNothing() throws Exception {
    int kills = 6;
    Random random = new Random(1);
    int port = TestBroker.freePort();
    Path config = config(port);
    try (TestBroker broker = TestBroker.patient(port, folder);
        Dashboard dashboard = new Dashboard(broker)) {
      for (int i = 0; i < kills; i++) {
        try (Program daemon = process(config, i, 900, 200)) {
          int before = lasting(dashboard).size();
          Program.await("some", () -> lasting(dashboard).size() > before + 5);
          Thread.sleep(random.nextInt(700));
          daemon.kill();
        }
      }
      List<String> expected = journal();
      try (Program last = process(config, kills, 0, 0)) {
        last.awaitOut("simulated");
        Program.await("all " + expected.size(), () -> lasting(dashboard).size() >= expected.size());
        Thread.sleep(500); // for what should not come
        assertSame(expected, lasting(dashboard));
        Logger.info("{} kills, {} alarms and days", kills, expected.size());
      }
    }
  }

  private static void assertSame(List<String> expected, List<String> arrived) throws IOException {
    assertTrue(expected.size() > 30, expected.size() + " of them");
    for (int i = 0; i < Math.min(expected.size(), arrived.size()); i++) {
      assertEquals(JSON.readTree(expected.get(i)), JSON.readTree(arrived.get(i)), "number " + i);
    }
    assertEquals(expected.size(), arrived.size());
  }

  /** Without those of a flood, which are for the journal only. */
  private static List<String> printed(Program daemon) {
    return daemon.out().stream()
        .filter(line -> line.startsWith("=") && !line.contains("\"held_back\":true"))
        .map(line -> line.substring(1))
        .toList();
  }

  private List<String> journal() throws Exception {
    List<String> lines = new ArrayList<>();
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("limnostat.db"));
        Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "SELECT json FROM event WHERE kind IN ('alarm', 'day') AND json NOT LIKE"
                    + " '%\"held_back\":true%' ORDER BY id")) {
      while (rows.next()) {
        lines.add(rows.getString(1));
      }
    }
    return lines;
  }

  /** Alarms and days in the order in which their ids first came, without id and time. */
  private static List<String> lasting(Dashboard dashboard) {
    return byId(dashboard).values().stream()
        .filter(e -> List.of("alarm", "day").contains(e.at("/event").asText()))
        .map(e -> ((ObjectNode) e.deepCopy()).without(List.of("id", "time_unix_s")).toString())
        .toList();
  }

  private static Map<String, JsonNode> byId(Dashboard dashboard) {
    Map<String, JsonNode> events = new LinkedHashMap<>();
    for (Dashboard.Message message : dashboard.seen("event")) {
      JsonNode event = message.json();
      JsonNode before = events.putIfAbsent(event.at("/id").asText(), event);
      assertTrue(before == null || before.equals(event), "one id, two events: " + event);
    }
    return events;
  }

  private static double spanH(List<Dashboard.Message> readings) {
    return readings.isEmpty()
        ? 0
        : (timeS(readings, readings.size() - 1) - timeS(readings, 0)) / 3600;
  }

  private static double timeS(List<Dashboard.Message> readings, int i) {
    return readings.get(i).json().at("/time_unix_s").asDouble();
  }

  private static List<Dashboard.Message> readings(Dashboard dashboard) {
    return dashboard.seen("reading");
  }
}
