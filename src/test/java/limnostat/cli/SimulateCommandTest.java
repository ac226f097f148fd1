package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
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
    assertEquals(2, rows, out::toString);
  }

  @Tag("slow")
  @Test
  void faultsAreATableOrADocument() throws Exception {
    assertEquals(0, run("simulate --faults --json"));
    assertTrue(new ObjectMapper().readTree(out.toString()).at("/ok").asBoolean());
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
    assertEquals("", out.toString());
    assertTrue(err.toString().contains("--step 1 to 60"), err::toString);
  }
}
