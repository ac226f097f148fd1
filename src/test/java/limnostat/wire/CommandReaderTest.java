package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.Mode;
import limnostat.estimate.Glance;
import limnostat.estimate.Product;
import limnostat.estimate.TestKit;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CommandReaderTest {
  private static final String TEST_RESULT =
      "{\"type\":\"test_result\", \"free_chlorine_mg_l\":3.1, \"combined_chlorine_mg_l\":0.2,"
          + " \"ph\":7.5, \"total_alkalinity_mg_l\":90, \"cyanuric_acid_mg_l\":40,"
          + " \"calcium_hardness_mg_l\":250, \"salt_mg_l\":3400}";

  static final List<String> DOCUMENTS =
      List.of(
          TEST_RESULT,
          "{\"type\":\"mode\", \"mode\":\"auto\"}",
          "{\"type\":\"mode\", \"mode\":\"manual\", \"duty\":0.4, \"request_id\":\"a7\"}",
          "{\"type\":\"target\", \"free_chlorine_mg_l\":3}",
          "{\"type\":\"superchlorinate\", \"free_chlorine_mg_l\":8, \"max_hours\":12}",
          "{\"type\":\"acknowledge\", \"alarm\":\"orp_high\"}",
          "{\"type\":\"reset\", \"interlock\":\"cell_current_unexpected\", \"request_id\":12}",
          "{\"type\":\"sun_forecast\", \"from\":\"2026-06-01T10:00:00Z\","
              + " \"clear_sky_fraction\":[0.4, 0.85, 1]}",
          "{\"type\":\"function_check\", \"minutes\":45}",
          "{\"type\":\"mode\", \"mode\":\"manual\", \"duty\":0.2, \"minutes\":30}",
          "{\"type\":\"calibrate\", \"probe\":\"ph\", \"ph\":6.865, \"temperature_c\":25}",
          "{\"type\":\"calibrate\", \"probe\":\"orp\", \"orp_mv\":470}",
          "{\"type\":\"calibrate_undo\", \"probe\":\"orp\"}",
          "{\"type\":\"mode\", \"mode\":\"off\", \"time\":\"2026-06-01T10:00:00Z\"}",
          "{\"type\":\"test_result\", \"free_chlorine_mg_l\":2, \"kit\":\"strips\"}",
          "{\"type\":\"test_result\", \"free_chlorine_quick\":\"little\", \"ph\":7.4}",
          "{\"type\":\"addition\", \"what\":\"liquid_chlorine\", \"amount_ml\":3785,"
              + " \"strength_percent\":10, \"ago_minutes\":90}",
          "{\"type\":\"addition\", \"what\":\"calcium_hypochlorite\", \"packs\":2, \"pack_g\":454,"
              + " \"at\":\"2026-06-01T10:00:00Z\"}",
          "{\"type\":\"addition\", \"what\":\"water_out\", \"amount_l\":3000}",
          "{\"type\":\"addition_undo\", \"addition\":\"a3\", \"request_id\":\"u1\"}",
          "{\"type\":\"addition_list\"}");

  private static Command.Request read(String document) {
    return CommandReader.read(document.getBytes(StandardCharsets.UTF_8), "here");
  }

  private static String reason(String document) {
    return assertInstanceOf(Command.Unreadable.class, read(document).command(), document).reason();
  }

  @Test
  void everyDocumentOfTheProtocolIsRead() {
    assertEquals(
        new Command.Test(
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, 3.1)
                .with(Tested.COMBINED_CHLORINE, 0.2)
                .with(Tested.PH, 7.5)
                .with(Tested.TOTAL_ALKALINITY, 90)
                .with(Tested.CYANURIC_ACID, 40)
                .with(Tested.CALCIUM_HARDNESS, 250)
                .with(Tested.SALT, 3400)),
        read(TEST_RESULT).command());
    OptionalDouble none = OptionalDouble.empty();
    assertEquals(
        new Command.Test(WaterTest.EMPTY.with(Tested.PH, 7.2)),
        read("{\"type\":\"test_result\",\"ph\":7.2}").command());
    assertEquals(
        new Command.Test(WaterTest.EMPTY.with(Tested.TOTAL_CHLORINE, 3.4)),
        read("{\"type\":\"test_result\",\"total_chlorine_mg_l\":3.4}").command());
    assertEquals(
        new Command.Test(WaterTest.EMPTY.with(Tested.FREE_CHLORINE, 2).readWith(TestKit.STRIPS)),
        read(DOCUMENTS.get(14)).command());
    for (Glance glance : Glance.values()) {
      assertEquals(
          new Command.Test(WaterTest.EMPTY.with(Tested.PH, 7.2).seen(glance)),
          read("{\"type\":\"test_result\",\"ph\":7.2,\"free_chlorine_quick\":\""
                  + glance.key()
                  + "\"}")
              .command());
    }
    for (Mode mode : Mode.values()) {
      assertEquals(
          new Command.SetMode(mode, none),
          read("{\"type\":\"mode\",\"mode\":\"" + mode.key() + "\"}").command());
    }
    assertEquals(
        new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.4)), read(DOCUMENTS.get(2)).command());
    assertEquals(new Command.SetTarget(3), read(DOCUMENTS.get(3)).command());
    assertEquals(new Command.Superchlorinate(8, 12 * 3600), read(DOCUMENTS.get(4)).command());
    assertEquals(
        new Command.Superchlorinate(8, 12 * 3600),
        read("{\"type\":\"superchlorinate\",\"free_chlorine_mg_l\":8}").command());
    assertEquals(new Command.Acknowledge("orp_high"), read(DOCUMENTS.get(5)).command());
    assertEquals(new Command.Reset("cell_current_unexpected"), read(DOCUMENTS.get(6)).command());
    assertEquals(new Command.FunctionCheck(2700), read(DOCUMENTS.get(8)).command());
    assertEquals(
        new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.2), OptionalDouble.of(1800)),
        read(DOCUMENTS.get(9)).command());
    assertEquals(new Command.CalibratePh(6.865, 25), read(DOCUMENTS.get(10)).command());
    assertEquals(new Command.CalibrateOrp(470), read(DOCUMENTS.get(11)).command());
    assertEquals(new Command.CalibrateUndo(Role.ORP_MV), read(DOCUMENTS.get(12)).command());
    // 2026-06-01 is day 20605 since 1970: 20605 × 86400 + 36000
    Command forecast = new Command.ForecastSun(1_780_308_000, List.of(0.4, 0.85, 1.0));
    assertEquals(forecast, read(DOCUMENTS.get(7)).command());
    assertEquals(
        forecast,
        read("{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T12:00+02:00\","
                + "\"clear_sky_fraction\":[0.4,0.85,1]}")
            .command());
    assertEquals(
        new Command.ForecastSun(1_780_308_000, List.of()),
        read("{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00:00Z\","
                + "\"clear_sky_fraction\":[]}")
            .command());
  }

  @Test
  void whatPeoplePutInIsRead() {
    OptionalDouble none = OptionalDouble.empty();
    assertEquals(
        new Command.Add(
            Product.LIQUID_CHLORINE, 3785, OptionalDouble.of(10), OptionalDouble.of(5400), none),
        read(DOCUMENTS.get(16)).command());
    assertEquals(
        new Command.Add(
            Product.CALCIUM_HYPOCHLORITE, 908, none, none, OptionalDouble.of(1_780_308_000)),
        read(DOCUMENTS.get(17)).command());
    assertEquals(
        new Command.Add(Product.WATER_OUT, 3000, none, none, none),
        read(DOCUMENTS.get(18)).command());
    assertEquals(new Command.UndoAddition("a3"), read(DOCUMENTS.get(19)).command());
    assertEquals(new Command.ListAdditions(), read(DOCUMENTS.get(20)).command());
    for (Product product : Product.values()) {
      String unit =
          switch (product.measure()) {
            case G -> "g";
            case ML -> "ml";
            case L -> "l";
          };
      String document =
          "{\"type\":\"addition\",\"what\":\"" + product.key() + "\",\"amount_" + unit + "\":5}";
      assertEquals(
          new Command.Add(product, 5, none, none, none), read(document).command(), document);
      assertEquals(List.of(), Sent.faults("command", bytes(document)), document);
    }
  }

  @Test
  void theRequestIsTold() {
    Command.Request request = read(DOCUMENTS.get(2));
    assertEquals(Optional.of("a7"), request.requestId());
    assertEquals("mode", request.type());
    assertEquals("here", request.origin());
    assertEquals(
        "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":0.4,\"request_id\":\"a7\"}",
        request.document());
    assertEquals(Optional.of("12"), read(DOCUMENTS.get(6)).requestId(), "a number as a text");
    assertEquals(Optional.empty(), read(DOCUMENTS.get(0)).requestId());
    String none = "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":null}";
    assertEquals(Optional.empty(), read(none).requestId(), "null is none, and no id of its own");
    assertInstanceOf(Command.SetMode.class, read(none).command());
    assertEquals(OptionalDouble.of(1_780_308_000), read(DOCUMENTS.get(13)).sentUnixS());
    assertEquals(OptionalDouble.empty(), read(DOCUMENTS.get(0)).sentUnixS());
  }

  /** Or a dashboard could not tell whose command was refused. */
  @Test
  void aRefusedDocumentStillTellsItsRequest() {
    Command.Request request = read("{\"type\":\"mode\",\"mode\":\"x\",\"request_id\":\"a8\"}");
    assertEquals(Optional.of("a8"), request.requestId());
    assertEquals("mode", request.type());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\u0007',
      value = {
        "{\"type\":\"mode\",\"mode\":\"auto\",\"mdoe\":1}|mdoe",
        "{\"type\":\"mode\",\"mode\":\"Auto\"}|mode",
        "{\"type\":\"mode\",\"mode\":null}|mode",
        "{\"type\":\"mode\",\"mode\":1}|mode",
        "{\"type\":\"mode\"}|mode",
        "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":\"0.5\"}|duty",
        "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":true}|duty",
        "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":[0.5]}|duty",
        "{\"type\":\"mode\",\"mode\":\"manual\",\"duty\":1e400}|duty",
        "{\"type\":\"mode\",\"mode\":\"manual\",\"minutes\":\"30\"}|minutes",
        "{\"type\":\"mode\",\"mode\":\"off\",\"time\":1780308000}|time",
        "{\"type\":\"mode\",\"mode\":\"off\",\"time\":\"2026-06-01T10:00\"}|zone",
        "{\"type\":\"calibrate\"}|probe",
        "{\"type\":\"calibrate\",\"probe\":\"glass\"}|ph, orp",
        "{\"type\":\"calibrate\",\"probe\":\"ph\",\"ph\":7}|temperature_c",
        "{\"type\":\"calibrate\",\"probe\":\"ph\",\"ph\":7,\"temperature_c\":25,\"orp_mv\":470}|orp_mv",
        "{\"type\":\"calibrate\",\"probe\":\"orp\"}|orp_mv",
        "{\"type\":\"calibrate_undo\"}|probe",
        "{\"type\":\"target\"}|free_chlorine_mg_l",
        "{\"type\":\"function_check\"}|minutes",
        "{\"type\":\"function_check\",\"minutes\":true}|minutes",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":null}|free_chlorine_mg_l",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":\"NaN\"}|free_chlorine_mg_l",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":-1e400}|free_chlorine_mg_l",
        "{\"type\":\"superchlorinate\",\"free_chlorine_mg_l\":8,\"max_hours\":\"12\"}|max_hours",
        "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":true}|request_id",
        "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":[1]}|request_id",
        "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":{}}|request_id",
        "{\"type\":\"mode\",\"mode\":\"off\",\"request_id\":1.5}|request_id",
        "{\"type\":\"test_result\"}|at least one value",
        "{\"type\":\"test_result\",\"ph\":null}|at least one value",
        "{\"type\":\"test_result\",\"ph\":{}}|ph",
        "{\"type\":\"test_result\",\"ph\":7.4,\"mode\":\"off\"}|mode",
        "{\"type\":\"test_result\",\"kit\":\"drops\"}|at least one value",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":null}|at least one value",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"much\"}|none, little, plenty",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":2}|free_chlorine_quick",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"little\",\"free_chlorine_mg_l\":1}|goes without",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"little\",\"total_chlorine_mg_l\":1}|goes without",
        "{\"type\":\"test_result\",\"free_chlorine_quick\":\"little\",\"kit\":\"strips\"}|goes without",
        "{\"type\":\"test_result\",\"free_chlorine_mg_l\":3,\"kit\":\"Drops\"}|photometer",
        "{\"type\":\"test_result\",\"free_chlorine_mg_l\":3,\"kit\":1}|kit",
        "{\"type\":\"addition\"}|what",
        "{\"type\":\"addition\",\"what\":\"soap\",\"amount_g\":5}|bicarbonate",
        "{\"type\":\"addition\",\"what\":\"salt\"}|amount_g",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":\"5\"}|amount_g",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_ml\":5}|amount_g",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"amount_ml\":5}|amount_ml",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"packs\":2}|packs",
        "{\"type\":\"addition\",\"what\":\"salt\",\"packs\":2}|pack_g",
        "{\"type\":\"addition\",\"what\":\"salt\",\"pack_g\":2}|packs",
        "{\"type\":\"addition\",\"what\":\"fresh_water\",\"packs\":2,\"pack_ml\":5}|amount_l",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"ago_minutes\":\"1\"}|ago_minutes",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"at\":\"2026-06-01T10:00\"}|zone",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"at\":7}|at",
        "{\"type\":\"addition\",\"what\":\"salt\",\"amount_g\":5,\"at\":\"2026-06-01T10:00Z\",\"ago_minutes\":1}|not both",
        "{\"type\":\"addition_undo\",\"addition\":3}|addition",
        "{\"type\":\"addition_list\",\"n\":3}|n",
        "{\"type\":\"acknowledge\",\"alarm\":7}|alarm",
        "{\"type\":\"reset\",\"alarm\":\"x\"}|interlock",
        "{\"type\":\"MODE\",\"mode\":\"auto\"}|unknown type",
        "{\"type\":{\"type\":\"mode\"},\"mode\":\"auto\"}|unknown type",
        "{\"type\":\"sun_forecast\",\"clear_sky_fraction\":[1]}|from",
        "{\"type\":\"sun_forecast\",\"from\":1780308000,\"clear_sky_fraction\":[1]}|from",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00\",\"clear_sky_fraction\":[1]}|zone",
        "{\"type\":\"sun_forecast\",\"from\":\"noon\",\"clear_sky_fraction\":[1]}|noon",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00Z\"}|clear_sky_fraction",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00Z\",\"clear_sky_fraction\":1}|array",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00Z\",\"clear_sky_fraction\":[1,null]}|numbers",
        "{\"type\":\"sun_forecast\",\"from\":\"2026-06-01T10:00Z\",\"clear_sky_fraction\":[1e400]}|numbers",
        "{\"mode\":\"auto\"}|unknown type",
        "{}|unknown type"
      })
  void theReasonNamesTheField(String document, String named) {
    assertTrue(reason(document).contains(named), reason(document));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "mode",
        "[]",
        "null",
        "3",
        "\"mode\"",
        "{\"type\":\"mode\",\"mode\":\"auto\"",
        "{\"type\":\"mode\",\"mode\":\"auto\"} {}",
        "{\"type\":\"mode\",\"mode\":\"auto\",}",
        "{'type':'mode','mode':'auto'}",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":NaN}",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":+3}",
        "{\"type\":\"target\",\"free_chlorine_mg_l\":03}",
        "{\"type\":\"mode\",\"mode\":\"off\",\"mode\":\"auto\"}",
        "{\"type\":\"mode\",\"type\":\"reset\",\"mode\":\"auto\"}",
        "{\"type\":\"mode\" /* now */,\"mode\":\"auto\"}"
      })
  void whatIsNoStrictJsonObjectIsRefusedWithAReason(String document) {
    assertFalse(reason(document).isBlank());
    assertEquals("", read(document).document());
  }

  @Test
  void boundsOfADocument() {
    assertTrue(reason("[".repeat(100_000)).startsWith("not valid JSON"));
    assertTrue(reason("{\"a\":".repeat(17) + "1" + "}".repeat(17)).contains("nesting"), "17 deep");
    String long4k = "{\"type\":\"acknowledge\",\"alarm\":\"" + "x".repeat(4096) + "\"}";
    assertInstanceOf(Command.Acknowledge.class, read(long4k).command());
    String longer = "{\"type\":\"acknowledge\",\"alarm\":\"" + "x".repeat(100_000) + "\"}";
    assertTrue(reason(longer).startsWith("not valid JSON"));
    assertTrue(
        reason("{\"type\":\"target\",\"free_chlorine_mg_l\":" + "9".repeat(10_000) + "}")
            .startsWith("not valid JSON"));
  }

  /** An answer must not carry a sender's kilobytes back. */
  @Test
  void whatIsEchoedIsShortened() {
    String x = "x".repeat(2000);
    Command.Request request =
        read("{\"type\":\"" + x + "\",\"request_id\":\"" + x + "\",\"" + x + "\":1}");
    assertTrue(request.type().length() <= 41 && request.requestId().get().length() <= 41);
    Command alarm = read("{\"type\":\"acknowledge\",\"alarm\":\"" + x + "\"}").command();
    assertEquals(41, ((Command.Acknowledge) alarm).alarm().length());
    String reason = reason("{\"type\":\"mode\",\"mode\":\"auto\",\"" + x + "\":1,\"y\":2}");
    assertTrue(reason.length() < 200, reason);
  }

  /** Cut in the middle of a pair of surrogates, a strict reader would refuse the answer. */
  @Test
  void anEchoIsNotCutInACharacter() throws IOException {
    String wave = "\uD83C\uDF0A";
    Command.Request request =
        read("{\"type\":\"mode\",\"request_id\":\"" + "x".repeat(39) + wave + "yy\"}");
    assertEquals("x".repeat(39) + wave + "…", request.requestId().orElseThrow());
    assertEquals("x".repeat(39) + wave + "…", answered(request).path("request_id").textValue());
  }

  /** The answer as a strict reader takes it: UTF-8, and no half of a character in an escape. */
  private static JsonNode answered(Command.Request request) throws IOException {
    String reason =
        request.command() instanceof Command.Unreadable unreadable ? unreadable.reason() : "x";
    byte[] answer = EventDocument.numbered(new ScanEvent.Refused(request, reason), 1, "1");
    String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(answer)).toString();
    JsonNode node = Json.MAPPER.readTree(text);
    assertTrue(Text.whole(node.toString()), text);
    return node;
  }

  @Test
  void halfACharacterIsRefusedAndNotRepeated() throws IOException {
    for (String field : List.of("type", "mode", "request_id", "other")) {
      Command.Request request = read("{\"" + field + "\":\"a\\ud83d\"}");
      assertTrue(((Command.Unreadable) request.command()).reason().contains("surrogate"), field);
      assertTrue(answered(request).isObject());
    }
    assertEquals("a\uFFFD", read("{\"type\":\"a\\ud83d\"}").type());
    assertEquals("a\uFFFD", read("{\"type\":\"a\\ud83d\",oops").type());
  }

  private static byte[] bytes(String document) {
    return document.getBytes(StandardCharsets.UTF_8);
  }

  /** What is only refused still tells whose it was: a retained one, and what is no JSON. */
  @Test
  void aDocumentThatIsNotReadTellsItsRequestAsFarAsItGoes() {
    for (String document :
        List.of(
            "{\"type\":\"mode\",\"request_id\":\"a9\",\"mode\":\"off\"}",
            "{\"x\":{\"request_id\":\"inner\",\"y\":[1,[2]]},\"request_id\":\"a9\",\"type\":\"mode\"}",
            "{\"request_id\":\"a9\",\"type\":\"mode\",\"mode\":",
            "{\"request_id\":\"a9\",\"type\":\"mode\",\"request_id\":\"second\"}",
            "{\"request_id\":\"a9\",\"type\":\"mode\",\"x\":" + "[".repeat(30),
            "{\"request_id\":\"a9\",\"type\":\"mode\",\"x\":NaN}")) {
      Command.Request request = CommandReader.refused("why", bytes(document), "here");
      assertEquals(Optional.of("a9"), request.requestId(), document);
      assertEquals("mode", request.type(), document);
      assertEquals(new Command.Unreadable("why"), request.command());
      assertEquals("", request.document());
    }
    assertEquals(Optional.of("a9"), read("{\"request_id\":\"a9\",\"x\":NaN}").requestId());
    for (String document :
        List.of(
            "",
            "[\"request_id\"]",
            "{\"request_id\":null}",
            "{\"request_id\":true}",
            "{\"request_id\":{\"request_id\":\"inner\"}}",
            "{\"request_id\":\"cut",
            "{\"request_id\":12",
            "\u0000\u0001")) {
      assertEquals(
          Optional.empty(),
          CommandReader.refused("why", bytes(document), "here").requestId(),
          document);
    }
    assertEquals(
        Optional.of("12"),
        CommandReader.refused("why", bytes("{\"request_id\":12,"), "").requestId());
  }

  /** What the library has to say to programmers is of no use to a sender. */
  @Test
  void reasonsAreForSenders() {
    assertEquals("not valid JSON: Non-standard token 'NaN'", reason("{\"type\":NaN}"));
    assertFalse(reason("[".repeat(30)).contains("StreamRead"), reason("[".repeat(30)));
    assertTrue(reason("[".repeat(30)).contains("(16)"), reason("[".repeat(30)));
  }

  @Test
  void notUtf8IsRefused() {
    byte[] latin = "{\"type\":\"mode\",\"mode\":\"é\"}".getBytes(StandardCharsets.ISO_8859_1);
    String wide = "{\"type\":\"mode\",\"mode\":\"off\"}";
    for (byte[] document :
        List.of(
            latin,
            wide.getBytes(StandardCharsets.UTF_16),
            wide.getBytes(StandardCharsets.UTF_16LE),
            ("\uFEFF" + wide).getBytes(StandardCharsets.UTF_8))) {
      assertInstanceOf(Command.Unreadable.class, CommandReader.read(document, "here").command());
    }
  }

  /** Whatever comes in: an answer, never an exception, and numbers that are numbers. */
  @Test
  void spoiltDocumentsNeverThrow() throws IOException {
    Fuzz fuzz = new Fuzz(11);
    int refused = 0;
    for (int i = 0; i < 50_000; i++) {
      byte[] document = fuzz.spoilt(DOCUMENTS);
      Command.Request request = CommandReader.read(document, "here");
      if (request.command() instanceof Command.Unreadable unreadable) {
        refused++;
        assertFalse(unreadable.reason().isBlank());
        assertTrue(unreadable.reason().length() < 1000, unreadable.reason());
      } else if (request.command() instanceof Command.SetTarget target) {
        assertTrue(Double.isFinite(target.freeChlorineMgL()));
      } else if (request.command() instanceof Command.SetMode mode) {
        assertTrue(Double.isFinite(mode.duty().orElse(0)));
      }
      assertTrue(answered(request).isObject());
    }
    assertTrue(refused > 22_000 && refused < 50_000, refused + " refused");
  }
}
