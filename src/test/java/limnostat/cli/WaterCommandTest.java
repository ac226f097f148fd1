package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

class WaterCommandTest {
  private record Run(int status, String out, String err) {}

  private static Run run(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line =
        Limnostat.commandLine()
            .setOut(new PrintWriter(out, true))
            .setErr(new PrintWriter(err, true));
    List<String> all = new ArrayList<>(List.of("water"));
    all.addAll(Arrays.asList(arguments));
    int status = line.execute(all.toArray(String[]::new));
    return new Run(status, out.toString(), err.toString());
  }

  private static final String[] POOL = {
    "--volume",
    "50 m3",
    "--free-chlorine",
    "1",
    "--combined-chlorine",
    "0.8",
    "--ph",
    "8.0",
    "--total-alkalinity",
    "50",
    "--cyanuric-acid",
    "10",
    "--calcium-hardness",
    "100",
    "--salt",
    "500",
    "--temperature",
    "28 degC"
  };

  private static String[] pool(String... more) {
    List<String> all = new ArrayList<>(List.of(POOL));
    all.addAll(Arrays.asList(more));
    return all.toArray(String[]::new);
  }

  @Test
  void tellsConstantsFormUncertaintyAndCautions() {
    Run run = run(POOL);
    assertEquals(0, run.status, run.err);
    for (String part :
        List.of(
            "O'Brien, Morris and Butler (1974)",
            "±35 %",
            "a guess",
            "field form",
            "22 CCR 65529",
            "Acid into water, never water into acid",
            "Test the water yourself before anyone bathes",
            "1. 800 mL of liquid chlorine")) {
      assertTrue(run.out.contains(part), part + " in\n" + run.out);
    }
  }

  /** Every text of the document stands on the page, and the other way round for the steps. */
  @Test
  void jsonHasTheSameContent() throws Exception {
    for (String units : new String[] {"", "--us"}) {
      String[] more = units.isEmpty() ? new String[] {} : new String[] {units};
      String page = run(pool(more)).out;
      List<String> withJson = new ArrayList<>(Arrays.asList(more));
      withJson.add("--json");
      Run json = run(pool(withJson.toArray(String[]::new)));
      assertEquals(0, json.status, json.err);
      JsonNode document = new ObjectMapper().readTree(json.out);
      assertEquals(6, document.get("steps").size());
      for (String part : List.of("constants", "basis", "note", "verdict")) {
        document
            .findValuesAsText(part)
            .forEach(text -> assertTrue(page.contains(text.replace("field form: ", "")), text));
      }
      for (JsonNode step : document.get("steps")) {
        String line =
            step.get("shown").asText()
                + " of "
                + step.get("product").asText()
                + ": "
                + step.get("purpose").asText();
        assertTrue(page.contains(line), line);
        step.get("effects").forEach(e -> assertTrue(page.contains(e.asText()), e.asText()));
      }
      document.get("out_of_range").forEach(b -> assertTrue(page.contains(b.get("shown").asText())));
      for (String part : List.of("bathing_no", "cautions", "not_told")) {
        document.get(part).forEach(text -> assertTrue(page.contains(text.asText())));
      }
      assertEquals(12, document.at("/speciation/species_mol_l").size());
    }
  }

  /** The same pool told and shown in US units: 50 m³ are 13208.6 gal, 28 °C are 82.4 °F. */
  @Test
  void usUnitsChangeWhatIsShownOnly() throws Exception {
    String[] us = pool("--us", "--json");
    us[1] = "13208.602617907425 gal";
    us[us.length - 3] = "82.4 degF";
    JsonNode there = new ObjectMapper().readTree(run(us).out);
    JsonNode here = new ObjectMapper().readTree(run(pool("--json")).out);
    assertEquals("27.1 fl oz", there.at("/steps/0/shown").asText()); // 800/29.5735
    assertEquals(
        here.at("/steps/0/amount_ml").asDouble(), there.at("/steps/0/amount_ml").asDouble(), 1e-6);
    assertEquals(
        here.at("/speciation/hocl_mg_l").asDouble(),
        there.at("/speciation/hocl_mg_l").asDouble(),
        1e-9);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--ph|9.6|pH: 9.6 is outside 6 to 9",
        "--ph|NaN|pH: NaN is outside 6 to 9",
        "--free-chlorine|-1|free chlorine: -1 mg/L is outside 0 mg/L to 50 mg/L",
        "--salt|35000|salt: 35000 mg/L is outside",
        "--volume|50|--volume: 50 has no unit",
        "--volume|13500|write which it is: \"13500 L\" or \"13500 gal\"",
        "--volume|50 cubits|unknown unit 'cubits'",
        "--temperature|120 degF|--temperature: \"120 degF\" is too high; at most 40 degC",
        "--chlorine|bleach|--chlorine: \"bleach\" is unknown; choose one of liquid",
        "--chlorine|salt-cell|--strength: a salt cell needs its output",
        "--acid|vinegar|--acid: \"vinegar\" is unknown; choose one of muriatic, dry",
        "--oxidise|air|--oxidise: \"air\" is unknown; choose one of when-needed, chlorine, non-chl",
        "--strength|125|liquid chlorine, trade %: 125 is outside 1 to 20",
        "--ph|high|'high' is not a double",
      })
  void refusesWithValueRangeAndMend(String option, String value, String told) {
    Run run = run(option, value);
    assertEquals(2, run.status);
    assertTrue(run.err.contains(told), run.err);
    assertEquals("", run.out);
  }

  @Test
  void testsThatContradictEachOtherAreRefused() {
    Run run =
        run(
            "--volume",
            "50 m3",
            "--ph",
            "7.5",
            "--total-alkalinity",
            "20",
            "--cyanuric-acid",
            "100",
            "--calcium-hardness",
            "200");
    assertEquals(2, run.status);
    assertTrue(run.err.contains("alkalinity"), run.err);
    assertTrue(run.err.contains("test"), run.err);
  }

  @Test
  void noExpectationWithoutChlorine() {
    Run run = run("--free-chlorine", "0", "--ph", "7.5", "--cyanuric-acid", "30");
    assertEquals(0, run.status, run.err);
    assertTrue(run.out.contains("free chlorine is too low"), run.out);
    assertFalse(run.out.contains("ORP"), run.out);
  }

  @Test
  void choicesAreTakenAsWritten() {
    Run run = run(pool("--chlorine", "cal-hypo", "--acid", "dry", "--oxidise", "non-chlorine"));
    assertEquals(0, run.status, run.err);
    assertTrue(run.out.contains("calcium hypochlorite, granular, 65 %"), run.out);
    assertTrue(run.out.contains("dry acid, 93.2 %"), run.out);
    assertTrue(run.out.contains("of non-chlorine oxidiser"), run.out);
  }

  @Test
  void nothingEnteredIsSaid() {
    Run run = run();
    assertEquals(0, run.status, run.err);
    assertTrue(run.out.contains("Not entered"), run.out);
  }
}
