package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.LedgerFile;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/** The packaged daemon, a real broker and another client: three processes, and what goes wrong. */
@Timeout(120)
class RunIT {
  private static final Pattern STOPPED =
      Pattern.compile("stopped, outputs off; (\\d+) scans, (\\d+) of them late; .*");

  @TempDir Path folder;

  private Program daemon(TestBroker broker) throws IOException {
    return daemon(ConfigText.feedingSoon(), broker);
  }

  private Program daemon(ConfigText text, TestBroker broker) throws IOException {
    Path config = text.withBroker(broker.port()).write(folder);
    return Program.limnostat("run", "--config", config.toString());
  }

  @Test
  void announcesItselfAndStopsInOrderOnSigterm() throws Exception {
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker);
        Program daemon = daemon(broker)) {
      dashboard.await("availability", m -> m.text().equals("online"));
      JsonNode first = dashboard.await("state").json();
      assertOff(first);
      JsonNode health = dashboard.await("health").json();
      assertTrue(health.at("/scans").asLong() >= 1, health.toString());
      assertEquals(0, health.at("/late").asLong(), health.toString());
      assertTrue(health.at("/overruns").isIntegralNumber(), health.toString());
      assertEquals(0, health.at("/ends_in_window").asLong(-1), health.toString());
      assertFalse(health.at("/ledger_failing").asBoolean(true), health.toString());
      for (String field :
          List.of("/worst_lateness_s", "/worst_duration_s", "/ledger_worst_commit_s")) {
        assertTrue(health.at(field).isNumber(), field + " in " + health);
      }
      assertTrue(health.at("/mqtt_attempts").isNumber(), health.toString());

      JsonNode feeding = dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
      assertEquals("auto", feeding.at("/mode").asText());
      for (String field : // the bench protocol's
          List.of(
              "duty",
              "ph",
              "orp_mv",
              "water_c",
              "free_chlorine_mg_l",
              "free_chlorine_sd_mg_l",
              "demand_mg_l_day")) {
        assertTrue(feeding.at("/" + field).isNumber(), field + " in " + feeding);
      }
      assertTrue(feeding.at("/inhibits").isArray(), feeding.toString());
      try (Dashboard late = new Dashboard(broker)) {
        assertTrue(late.await("state").retained());
        assertEquals("online", late.await("availability").text());
      }

      Files.readAllLines(Path.of("/proc/" + daemon.pid() + "/status")).stream()
          .filter(line -> line.startsWith("VmRSS") || line.startsWith("VmHWM"))
          .forEach(Logger::info);
      long beganNs = System.nanoTime();
      daemon.signal("TERM");
      assertEquals(143, daemon.exit(), "what a JVM returns on SIGTERM");
      double tookS = (System.nanoTime() - beganNs) / 1e9;
      assertTrue(tookS < 5, "stopped after " + tookS + " s");
      dashboard.await("availability", m -> m.text().equals("offline"));
      assertEquals(0, stopped(daemon).late(), daemon.err().toString());
      assertClosed();
    }
  }

  @Test
  void aKilledDaemonIsOfflineByItsWillAndCountsOnWhenItIsBack() throws Exception {
    try (TestBroker broker = TestBroker.start()) {
      double givenG;
      try (Dashboard dashboard = new Dashboard(broker);
          Program daemon = daemon(broker)) {
        dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
        dashboard.ask("{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":1}");
        givenG = dashboard.awaitState(RunIT::manual).at("/chlorine_total_g").asDouble();
        assertTrue(givenG > 0, "it was feeding");
        Thread.sleep(300); // one commit
        daemon.kill();
        dashboard.await("availability", m -> m.text().equals("offline"));
      }
      try (Dashboard dashboard = new Dashboard(broker);
          Program daemon = daemon(broker)) {
        daemon.awaitLog("resumed after");
        dashboard.await("availability", m -> !m.retained() && m.text().equals("online"));
        JsonNode first = dashboard.await("state", m -> !m.retained()).json();
        assertOff(first);
        assertTrue(manual(first), "a person's choice stays: " + first);
        assertTrue(first.at("/chlorine_total_g").asDouble() >= givenG, givenG + " g, " + first);
        dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
      }
    }
  }

  private static boolean manual(JsonNode state) {
    return state.at("/mode").asText().equals("manual");
  }

  @Test
  void answersEveryCommandWithItsResultOrAReason() throws Exception {
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker);
        Program daemon = daemon(broker)) {
      dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
      JsonNode off =
          dashboard.ask("{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":\"desk-1\"}");
      assertEquals("accepted", off.at("/result").asText(), off.toString());
      assertEquals("desk-1", off.at("/request_id").asText());
      assertEquals("mode", off.at("/type").asText());
      assertOff(dashboard.awaitState(s -> s.at("/mode").asText().equals("off")));

      JsonNode tooMuch = dashboard.ask("{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":2}");
      assertRefused(tooMuch, "duty 2 is above the program's hard bound = 1");
      assertRefused(dashboard.ask("{\"type\":\"dance\",\"request_id\":7}"), "unknown type");
      assertRefused(dashboard.ask("mode off"), "not valid JSON");
      assertRefused(dashboard.ask("[]"), "a command is a JSON object");
      assertRefused(dashboard.ask("x".repeat(5000)), "longer than 4096 bytes");
      assertRefused(
          dashboard.ask("{\"type\":\"target\",\"free_chlorine_mg_l\":7.5}"),
          "limits.free_chlorine_high");

      daemon.signal("TERM");
      daemon.exit();
      dashboard.send("{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":1}", "-r");
      try (Program again = daemon(broker)) {
        dashboard.await("result", m -> m.text().contains("retained by the broker"));
        assertRefused(dashboard.seen("result").get(7).json(), "retained by the broker");
        JsonNode state = dashboard.seen("state").get(dashboard.seen("state").size() - 1).json();
        assertEquals("off", state.at("/mode").asText(), "the mode before the restart");
        again.awaitLog("refused");
      }
    }
  }

  @Test
  void anAlarmIsRetainedThroughItsStatesAndAKill() throws Exception {
    // This machine has no GPIO: a critical alarm, which is raised without delay.
    ConfigText board = ConfigText.board().with("board.sysfs", "\"" + folder.resolve("sys") + "\"");
    try (TestBroker broker = TestBroker.start();
        Dashboard dashboard = new Dashboard(broker)) {
      try (Program daemon = daemon(board, broker)) {
        // Before the first scan each alarm is shown at rest.
        JsonNode raised =
            dashboard
                .await(
                    "alarm/output_not_driven",
                    m -> m.json().at("/state").asText().equals("unacknowledged"))
                .json();
        assertEquals("critical", raised.at("/priority").asText());
        assertTrue(raised.at("/advice").asText().contains("by eye"), raised.toString());
        JsonNode taken =
            dashboard.ask("{\"type\":\"acknowledge\",\"alarm\":\"output_not_driven\"}");
        assertEquals("accepted", taken.at("/result").asText(), taken.toString());
        dashboard.await(
            "alarm/output_not_driven", m -> m.json().at("/state").asText().equals("acknowledged"));
        Thread.sleep(300); // one commit
        daemon.kill();
      }
      try (Program daemon = daemon(board, broker);
          Dashboard late = new Dashboard(broker)) {
        daemon.awaitLog("first scan done");
        Dashboard.Message kept = late.await("alarm/output_not_driven");
        assertEquals("acknowledged", kept.json().at("/state").asText(), kept.toString());
      }
    }
  }

  @Test
  void aBrokerThatFreezesOrDiesDelaysNoScanAndIsServedAgain() throws Exception {
    TestBroker broker = TestBroker.start();
    try (Program daemon = daemon(broker)) {
      try (Dashboard dashboard = new Dashboard(broker)) {
        dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
        broker.program().signal("STOP");
        Thread.sleep(10_000);
        broker.program().signal("CONT");
        int before = dashboard.seen("state").size();
        assertEquals(
            "accepted",
            dashboard.ask("{\"type\":\"mode\",\"mode\":\"off\"}").at("/result").asText());
        Program.await("a state", () -> dashboard.seen("state").size() > before);
      }
      broker.program().kill();
      daemon.awaitLog("MQTT link down: ");
      broker = TestBroker.start(broker.port());
      try (Dashboard dashboard = new Dashboard(broker)) {
        assertEquals("online", dashboard.await("availability").text());
        assertEquals("off", dashboard.await("state").json().at("/mode").asText());
        assertEquals(
            "accepted",
            dashboard.ask("{\"type\":\"mode\",\"mode\":\"auto\"}").at("/result").asText());
        dashboard.awaitState(s -> s.at("/mode").asText().equals("auto"));
      }
      daemon.signal("TERM");
      assertEquals(143, daemon.exit());
      Stopped stopped = stopped(daemon);
      assertEquals(0, stopped.late(), daemon.err().toString());
      assertTrue(stopped.scans() > 80, "more than 80 scans of 0.2 s in more than 16 s");
      assertClosed();
    } finally {
      broker.close();
    }
  }

  private record Stopped(long scans, long late) {}

  private static Stopped stopped(Program daemon) {
    for (String line : daemon.err()) {
      Matcher matcher = STOPPED.matcher(line);
      if (matcher.find()) {
        return new Stopped(Long.parseLong(matcher.group(1)), Long.parseLong(matcher.group(2)));
      }
    }
    throw new AssertionError("no word of the end in " + daemon.err());
  }

  private void assertClosed() throws Exception {
    assertFalse(Files.exists(folder.resolve("limnostat.db-wal")), "a log left beside the ledger");
    LedgerFile.assertIntact(folder.resolve("limnostat.db"));
  }

  private static void assertOff(JsonNode state) {
    assertEquals(0, state.at("/outputs/chlorine").asDouble(-1), state.toString());
    assertEquals(0, state.at("/outputs/acid").asDouble(-1), state.toString());
  }

  private static void assertRefused(JsonNode answer, String reason) {
    assertEquals("refused", answer.at("/result").asText(), answer.toString());
    assertTrue(answer.at("/reason").asText().contains(reason), answer.toString());
  }
}
