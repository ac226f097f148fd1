package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import limnostat.rig.ConfigText;
import limnostat.rig.Dashboard;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/**
 * What a broker may do to the daemon: no scan is late by half a second (the program's own limit;
 * the period is 0.2 s), the log tells each cause once, memory does not grow.
 */
@Timeout(300)
class HardBrokerIT {
  private static final int FLOOD = 1_000_000;
  private static final Pattern STOPPED =
      Pattern.compile("stopped, outputs off; (\\d+) scans, (\\d+) of them late.*");

  /** The last line of the histogram of live objects: their number and their bytes. */
  private static final Pattern TOTAL = Pattern.compile("Total\\s+\\d+\\s+(\\d+)");

  @TempDir Path folder;

  private static Program daemon(Path config) throws Exception {
    return Program.limnostat("run", "--config", config.toString());
  }

  @Test
  void oneThatRefusesThePassword() throws Exception {
    Path passwords = Files.createFile(folder.resolve("passwords"));
    Program.output("mosquitto_passwd", "-b", passwords.toString(), "pool", "right");
    readable();
    Path password = Files.writeString(folder.resolve("password"), "wrong\n");
    int port = TestBroker.freePort();
    try (TestBroker broker =
            TestBroker.with(
                port,
                folder,
                List.of("allow_anonymous false", "password_file " + folder.resolve("passwords")));
        Program daemon =
            daemon(
                ConfigText.feedingSoon()
                    .withBroker(broker.port())
                    .with("mqtt.user", "\"pool\"")
                    .with("mqtt.password_file", "\"" + password + "\"")
                    .write(folder))) {
      daemon.awaitLog("refuses the user name or the password");
      Thread.sleep(5000);
      assertEquals(1, down(daemon), daemon.err().toString());
      assertPunctual("password refused", daemon);
    }
  }

  @Test
  void oneWithAnotherCertificate() throws Exception {
    for (String name : List.of("broker", "other")) {
      Program.output(
          "openssl",
          "req",
          "-x509",
          "-newkey",
          "rsa:2048",
          "-nodes",
          "-days",
          "2",
          "-subj",
          "/CN=127.0.0.1",
          "-addext",
          "subjectAltName=IP:127.0.0.1",
          "-keyout",
          folder.resolve(name + ".key").toString(),
          "-out",
          folder.resolve(name).toString());
    }
    readable();
    int port = TestBroker.freePort();
    try (TestBroker broker =
            TestBroker.with(
                port,
                folder,
                List.of(
                    "allow_anonymous true",
                    "certfile " + folder.resolve("broker"),
                    "keyfile " + folder.resolve("broker.key")));
        Program daemon =
            daemon(
                ConfigText.feedingSoon()
                    .withBroker(broker.port())
                    .with("mqtt.tls", "true")
                    .with("mqtt.ca_file", "\"" + folder.resolve("other") + "\"")
                    .write(folder))) {
      daemon.awaitLog("its certificate is not accepted");
      Thread.sleep(5000);
      assertEquals(1, down(daemon), daemon.err().toString());
      assertPunctual("certificate refused", daemon);
    }
  }

  @Test
  void oneThatStallsForLongerThanTheLinkWaits() throws Exception {
    try (TestBroker broker = TestBroker.start();
        Program daemon = daemon(ConfigText.feedingSoon().withBroker(broker.port()).write(folder))) {
      daemon.awaitLog("is up");
      broker.program().signal("STOP");
      daemon.awaitLog("MQTT link down: ");
      Thread.sleep(15_000);
      long causes = down(daemon);
      assertTrue(causes <= 2, "no longer answers, then no answer to a connect: " + daemon.err());
      broker.program().signal("CONT");
      daemon.awaitLog("MQTT link is up again after ");
      try (Dashboard dashboard = new Dashboard(broker)) {
        assertEquals("online", dashboard.await("availability").text());
      }
      assertEquals(causes, down(daemon), daemon.err().toString());
      assertPunctual("stalled", daemon);
    }
  }

  @Test
  void oneThatFloodsTheCommandTopic() throws Exception {
    int port = TestBroker.freePort();
    Path config = ConfigText.feedingSoon().withBroker(port).write(folder);
    Path lines =
        Files.writeString(folder.resolve("lines"), "{}\n".repeat(FLOOD), StandardCharsets.US_ASCII);
    try (TestBroker broker = TestBroker.patient(port, folder);
        Dashboard dashboard = new Dashboard(broker, "state");
        Program daemon = daemon(config)) {
      dashboard.awaitState(s -> s.at("/outputs/chlorine").asDouble() == 1);
      long before = liveBytes(daemon);
      long beganNs = System.nanoTime();
      List<String> command = new ArrayList<>(broker.client("mosquitto_pub"));
      command.addAll(List.of("-q", "0", "-l", "-t", "limnostat/garden/command"));
      Process flood =
          new ProcessBuilder(command)
              .redirectInput(lines.toFile())
              .redirectErrorStream(true)
              .redirectOutput(folder.resolve("flood.log").toFile())
              .start();
      assertEquals(0, flood.waitFor(), Files.readString(folder.resolve("flood.log")));
      double tookS = (System.nanoTime() - beganNs) / 1e9;
      // In order behind the flood; a few at first are too many a second.
      Program.await(
          "a command after the flood",
          () -> {
            try {
              Thread.sleep(500);
              dashboard.send("{\"type\":\"mode\",\"mode\":\"off\"}");
            } catch (Exception e) {
              throw new AssertionError(e);
            }
            return dashboard.seen("state").stream()
                .anyMatch(m -> m.json().at("/mode").asText().equals("off"));
          });
      long after = liveBytes(daemon);
      Logger.info(
          "{} commands in {} s; live bytes before {}, after {}", FLOOD, tookS, before, after);
      assertTrue(after < before + 4_000_000, before + " bytes before, " + after + " after");
      assertTrue(daemon.err().size() < 200, daemon.err().size() + " lines of log");
      assertEquals(0, down(daemon), daemon.err().toString());
      assertPunctual("flooded", daemon);
    }
  }

  /** The broker changes to a user of its own, which must be able to read its files. */
  private void readable() throws Exception {
    Program.output("chmod", "-R", "a+rX", folder.toString());
  }

  private static long down(Program daemon) {
    return daemon.err().stream().filter(line -> line.contains("MQTT link down")).count();
  }

  /** Of what is left after a collection. */
  private static long liveBytes(Program daemon) throws Exception {
    Path jcmd = Path.of(System.getProperty("java.home"), "bin", "jcmd");
    String histogram = Program.output(jcmd.toString(), "" + daemon.pid(), "GC.class_histogram");
    Matcher total = TOTAL.matcher(histogram);
    assertTrue(total.find(), histogram);
    return Long.parseLong(total.group(1));
  }

  private static void assertPunctual(String when, Program daemon) throws Exception {
    daemon.signal("TERM");
    assertEquals(143, daemon.exit());
    for (String line : daemon.err()) {
      Matcher stopped = STOPPED.matcher(line);
      if (stopped.find()) {
        Logger.info("{}: {}", when, stopped.group());
        assertEquals("0", stopped.group(2), line);
        return;
      }
    }
    throw new AssertionError("no word of the end in " + daemon.err());
  }
}
