package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class SimulateCommandTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String line) {
    CommandLine commandLine = Limnostat.commandLine();
    commandLine.setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
    return commandLine.execute(line.split(" "));
  }

  @Tag("slow")
  @Test
  void jsonHasTheFiguresOfEveryContestant() throws Exception {
    assertEquals(0, run("simulate --pools 2 --days 1 --spread near --step 60 --json"));
    JsonNode document = new ObjectMapper().readTree(out.toString());
    assertEquals(2, document.at("/pools").size());
    assertEquals("near", document.at("/season/spread").asText());
    for (String contestant :
        new String[] {"limnostat", "fixed_output", "orp_on_off", "orp_pi", "clairvoyant"}) {
      assertTrue(
          document.at("/pools/1/contestants/" + contestant + "/in_band_percent").isNumber(),
          contestant);
      assertTrue(
          document.at("/summary/" + contestant + "/highest_mg_l/mean").isNumber(), contestant);
    }
    assertTrue(document.at("/summary/limnostat/estimate_error_mg_l/median").isNumber());
    assertTrue(document.at("/summary/orp_pi/estimate_error_mg_l").isMissingNode());
    assertTrue(err.toString().contains("2 of 2"), "progress: " + err);
  }

  @Tag("slow")
  @Test
  void tableNamesEveryContestantForEachPoolAndInAll() {
    assertEquals(0, run("simulate --pools 1 --days 1 --spread wide --step 60 --answering"));
    long rows = out.toString().lines().filter(line -> line.matches("orp pi +\\d.*")).count();
    // the pool, all pools, and all of them by day
    assertEquals(3, rows, out::toString);
  }

  @Test
  void strangePoolsSayWhatIsStrangeAndHaveGoalsAndATrace(@TempDir Path folder) throws Exception {
    Path trace = folder.resolve("trace.csv");
    assertEquals(
        0,
        run(
            "simulate --pools 1 --days 1 --spread strange --family electrode --step 60 --habit 3"
                + " --players limnostat --json --trace "
                + trace));
    JsonNode document = new ObjectMapper().readTree(out.toString());
    assertEquals("electrode", document.at("/season/family").asText());
    assertEquals("limnostat", document.at("/season/players/0").asText());
    assertTrue(document.at("/pools/0/traits").isArray());
    assertTrue(document.at("/goals/limnostat/silent_hours/worst").isNumber());
    assertTrue(document.at("/goals/clairvoyant/silent_hours").isMissingNode());
    assertTrue(document.at("/summary/orp_pi").isMissingNode());
    assertEquals(25, Files.readAllLines(trace).size());
    assertEquals(1, run("simulate --pools 1 --days 1 --trace " + folder));
  }

  /** What they find is FaultSuiteTest's: all of them take a minute. */
  @Test
  void faultsTakeNoOptionsOfASeason() {
    assertEquals(2, run("simulate --faults --days 3"));
  }

  @Test
  void unusableOptionsAreStatusTwo() {
    assertEquals(2, run("simulate --pools 0"));
    assertEquals(2, run("simulate --days 367"));
    assertEquals(2, run("simulate --step 61"));
    assertEquals(2, run("simulate --step NaN"));
    assertEquals(2, run("simulate --spread far"));
    assertEquals(2, run("simulate --perfect luck"));
    assertEquals(2, run("simulate --players nobody"));
    assertEquals(2, run("simulate --family odd"));
    assertEquals(2, run("simulate --habit 61"));
    assertEquals("", out.toString());
    assertTrue(err.toString().contains("--step 1 to 60"), err::toString);
  }
}
