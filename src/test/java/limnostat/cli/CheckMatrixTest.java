package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import limnostat.report.MatrixTable;
import limnostat.rig.ConfigText;
import limnostat.safety.Cause;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The matrix of an installation. */
class CheckMatrixTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @TempDir Path folder;

  private int run(String... arguments) {
    CommandLine commandLine = Limnostat.commandLine();
    commandLine.setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
    return commandLine.execute(arguments);
  }

  private String row(Cause cause) {
    return out.toString()
        .lines()
        .filter(line -> line.startsWith("| `" + cause.id() + "` "))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void withoutAFileItIsTheGeneralOne() {
    assertEquals(0, run("check", "--matrix"));
    assertEquals(MatrixTable.lines(MatrixTable.rows()), out.toString().lines().toList());
  }

  @Test
  void withAFileItHasItsLimitsAndWhatCannotOccur() throws Exception {
    Path file =
        ConfigText.feedingSoon()
            .with("limits.orp_high", "\"780 mV\"")
            .with("limits.blind_feed", "\"3.5 mg/L\"")
            .with("limits.cell_current_max", "\"8 A\"")
            .with("inputs.fitted", "[\"cell_a\", \"pump_on\"]")
            .with("alarms.out_of_service", "[\"test_due\"]")
            .write(folder);
    assertEquals(0, run("check", "--matrix", "--config", file.toString()));
    assertEquals(
        "| `orp_high` | ORP at its high limit, 780 mV | inhibit | – | high, deadband 10 mV |",
        row(Cause.ORP_HIGH));
    assertEquals(
        "| `blind_feed_spent` | the blind budget is used up, 3.5 mg/L | inhibit | – | high, at once |",
        row(Cause.BLIND_FEED_SPENT));
    assertEquals(
        "| `cell_over_current` | cell current above its limit, 8 A | inhibit | – | high, latching |",
        row(Cause.CELL_OVER_CURRENT));
    assertEquals(
        "| `cover_closed` | cover closed (cannot occur: no cover_closed in inputs.fitted) | limit | –"
            + " | – |",
        row(Cause.COVER_CLOSED));
    assertEquals("| `no_flow` | no flow | inhibit | – | – |", row(Cause.NO_FLOW)); // no acid output
    assertTrue(row(Cause.ACID_DAY_CAP).contains("(cannot occur: no acid output)"));
    assertTrue(row(Cause.CELL_CURRENT_LOW).contains("(cannot occur: no chlorine.cell_current)"));
    assertTrue(row(Cause.TEST_DUE).endsWith("| low, out of service |"), row(Cause.TEST_DUE));
    assertEquals(-1, row(Cause.FLOW_STUCK).indexOf("cannot"));
    assertEquals(-1, row(Cause.PUMP_OFF).indexOf("cannot"));
    assertEquals(2 + Cause.values().length, out.toString().lines().count());
  }

  @Test
  void asADocument() throws Exception {
    assertEquals(0, run("check", "--matrix", "--json", "--config", "config/limnostat.toml"));
    JsonNode rows = new ObjectMapper().readTree(out.toString()).at("/matrix");
    List<String> causes = new ArrayList<>();
    rows.forEach(row -> causes.add(row.at("/cause").asText()));
    assertEquals(Arrays.stream(Cause.values()).map(Cause::id).toList(), causes);
    assertEquals(
        "pH above the dosing window, 8", rows.at("/" + at(Cause.PH_HIGH) + "/when").asText());
    assertEquals(
        "no tank_low in inputs.fitted", rows.at("/" + at(Cause.TANK_LOW) + "/cannot").asText());
    assertEquals("", rows.at("/" + at(Cause.ACID_RECENT) + "/cannot").asText("?"));
  }

  private static int at(Cause cause) {
    return List.of(Cause.values()).indexOf(cause);
  }

  @Test
  void allElseWantsAFile() {
    assertEquals(2, run("check", "--json"));
    assertTrue(err.toString().contains("--config"), err::toString);
    assertEquals(2, run("check", "--matrix", "--config", "absent.toml"));
  }
}
