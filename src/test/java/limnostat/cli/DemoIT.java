package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import limnostat.rig.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The packaged demo, as a person sees it on the first day. */
@Timeout(60)
class DemoIT {
  private static final String READING = "limnostat/garden/state .*\"ph\":[67]\\.\\d.*";
  private static final Pattern ROW =
      Pattern.compile(
          "\\d\\d:\\d\\d +\\d+ +[\\d.]+ +[\\d-]+ +[\\d.]+ +[\\d.]+ ± [\\d.]+ +[\\d.]+ +[\\d.]+ +\\d+"
              + " +[\\d.]+ +\\d+     (.*)");
  private static final String ALARM =
      "limnostat/garden/alarm/flow_missing .*\"state\":\"unacknowledged\".*";

  private static long count(Program demo, String text) {
    return demo.out().stream().filter(line -> line.contains(text)).count();
  }

  /**
   * A JVM that inherits an ignored SIGINT never sees one, and a script without job control lets
   * what it puts in the background ignore it. {@code env} gives back the default and becomes the
   * JVM, so the process id stays.
   */
  private static ProcessBuilder withSigint(String... arguments) {
    ProcessBuilder builder = Program.limnostatCommand(arguments);
    builder.command().addAll(0, List.of("env", "--default-signal=INT"));
    return builder;
  }

  /** The processes that this one started and that live. */
  private static List<String> children(Program demo) {
    return ProcessHandle.of(demo.pid()).stream()
        .flatMap(ProcessHandle::descendants)
        .map(child -> child.info().command().orElse("?"))
        .toList();
  }

  @Test
  void showsADayWithItsFaultsAndItsSum() throws Exception {
    try (Program demo = Program.limnostat("demo", "--speed", "20000")) {
      assertEquals(0, demo.exit(), demo.err().toString());
      assertEquals(2, count(demo, "FAULT"), "faults on purpose, labelled: " + demo.out());
      assertTrue(count(demo, "flow is lost") == 1 && count(demo, "ORP probe is unplugged") == 1);
      long rows = demo.out().stream().filter(line -> line.matches("\\d\\d:\\d\\d .*")).count();
      assertTrue(rows >= 24, rows + " rows");
      List<String> end = demo.out().subList(demo.out().size() - 3, demo.out().size());
      assertTrue(end.get(0).startsWith("Water: "), end.toString());
      assertTrue(end.get(1).startsWith("Dosed: "), end.toString());
      assertTrue(end.get(2).startsWith("Alarms: "), end.toString());
      assertTrue(
          demo.out().stream().anyMatch(line -> line.contains("log: alarm flow_missing")),
          demo.out().toString());
      assertShowsWhatTheReadmeShows(demo.out());
      assertFalse(
          demo.err().stream().anyMatch(line -> line.contains("Exception")), demo.err().toString());
    }
  }

  /**
   * What the README shows of it: head, story and foot as printed, whatever the figures; its rows
   * have the shape of rows.
   */
  private static void assertShowsWhatTheReadmeShows(List<String> out) throws IOException {
    String readme = Files.readString(Path.of("README.md"));
    int from = readme.indexOf("```\nlocal   sun water");
    List<String> shown = readme.substring(from, readme.indexOf("\n```\n", from)).lines().toList();
    assertTrue(shown.size() > 12, shown.toString());
    for (String line : shown.subList(1, shown.size())) {
      assertTrue(
          ROW.matcher(line).matches()
              ? out.stream().anyMatch(ROW.asMatchPredicate())
              : out.contains(line),
          "not printed: " + line);
    }
  }

  /** As a newcomer pastes it into another terminal. */
  @Test
  void theLineThatSubscribesShowsReadingsAndAnAlarmWithinAMinute() throws Exception {
    try (Program demo = Program.limnostat("demo")) {
      demo.awaitOut("To watch, in another terminal:");
      demo.awaitOut("  mosquitto_sub ");
      String line =
          demo.out().stream()
              .filter(l -> l.startsWith("  mosquitto_sub "))
              .findFirst()
              .orElseThrow();
      try (Program pasted = Program.start("sh", "-c", "exec stdbuf -oL " + line.strip())) {
        long beganNs = System.nanoTime();
        pasted.awaitOut("limnostat/garden/availability online");
        Program.await("a reading", () -> pasted.out().stream().anyMatch(l -> l.matches(READING)));
        Program.await("an alarm", () -> pasted.out().stream().anyMatch(l -> l.matches(ALARM)));
        double tookS = (System.nanoTime() - beganNs) / 1e9;
        assertTrue(tookS < 60, tookS + " s");
      }
    }
  }

  @Test
  void endsOnSigintWithOutputsOffAndWithoutLeavingABroker() throws Exception {
    try (Program demo = Program.start(withSigint("demo", "--speed", "100"))) {
      demo.awaitOut("08:15 ");
      List<ProcessHandle> brokers =
          ProcessHandle.of(demo.pid()).orElseThrow().descendants().toList();
      assertTrue(children(demo).toString().contains("mosquitto"), children(demo).toString());
      long beganNs = System.nanoTime();
      demo.signal("INT");
      assertEquals(130, demo.exit(), "what a JVM returns on SIGINT");
      double tookS = (System.nanoTime() - beganNs) / 1e9;
      assertTrue(tookS < 5, "ended after " + tookS + " s");
      assertEquals(1, count(demo, "outputs are off"), demo.out().toString());
      assertEquals(1, count(demo, "Dosed: "));
      Program.await("end of " + brokers, () -> brokers.stream().noneMatch(ProcessHandle::isAlive));
    }
  }
}
