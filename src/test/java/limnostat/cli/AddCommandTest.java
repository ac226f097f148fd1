package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.CompletableFuture;
import limnostat.config.LedgerSettings;
import limnostat.daemon.EventLog;
import limnostat.daemon.LocalCommandFolder;
import limnostat.estimate.Product;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.rig.ConfigText;
import limnostat.rig.Program;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** A person's command line, and scans that answer it: a pool of 50 m³ in Berlin's zone. */
@Timeout(60)
class AddCommandTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  @TempDir Path folder;

  private final StringWriter err = new StringWriter();
  private ScanState state = ScanState.start(TestSettings.pool());

  private int run(Path config, String... arguments) {
    CommandLine line = Limnostat.commandLine().setErr(new PrintWriter(err, true));
    List<String> all = new ArrayList<>(List.of("add", "--config", config.toString()));
    all.addAll(List.of(arguments));
    return line.execute(all.toArray(String[]::new));
  }

  /** Takes one request, and answers it by a scan. */
  private Command answered(LocalCommandFolder spool) {
    Command.Request request = null;
    while (request == null) {
      request = spool.take().stream().findFirst().orElse(null);
    }
    ScanOutcome out =
        Scan.step(
            TestSettings.pool(),
            state,
            new ScanInputs(
                1,
                System.currentTimeMillis() / 1000.0,
                true,
                Signals.of(Map.of()),
                Map.of(),
                false,
                true,
                List.of(request)));
    state = out.state();
    spool.answered(out.events());
    return request.command();
  }

  private Command asked(int status, String... arguments) throws Exception {
    Path config = ConfigText.shipped().write(folder);
    Path ledger = folder.resolve("limnostat.db");
    try (EventLog log = new EventLog(line -> {});
        Ledger kept = Ledger.open(new LedgerSettings(ledger, 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger, kept, log)) {
      Program.await("the folder", () -> LocalCommandFolder.folder(ledger).toFile().isDirectory());
      CompletableFuture<Command> daemon = CompletableFuture.supplyAsync(() -> answered(spool));
      assertEquals(status, run(config, arguments), err.toString());
      return daemon.get();
    }
  }

  private static Command.Add add(Product product, double amount) {
    return new Command.Add(product, amount, NONE, NONE, NONE);
  }

  @Test
  void unitsAreThosePeopleWrite() throws Exception {
    assertEquals(
        new Command.Add(
            Product.LIQUID_CHLORINE,
            3785.411784,
            OptionalDouble.of(10),
            OptionalDouble.of(5400),
            NONE),
        asked(0, "liquid_chlorine", "1 gal", "--strength", "10", "--ago", "90 min"));
    assertEquals(add(Product.TRICHLOR, 600), asked(0, "trichlor", "3 packs", "--pack", "200 g"));
    assertEquals(add(Product.SODA_ASH, 907.18474), asked(0, "soda-ash", "2 lb"));
    assertEquals(add(Product.FRESH_WATER, 3000), asked(0, "fresh_water", "3 m3"));
    assertEquals(4, state.asked().additions().count());
    assertEquals(new Command.ListAdditions(), asked(0, "--list"));
    assertEquals(new Command.UndoAddition("a2"), asked(0, "--undo", "a2"));
    assertTrue(state.asked().additions().of("a2").orElseThrow().undone());
    assertEquals(new Command.UndoAddition("a2"), asked(1, "--undo", "a2"));
    assertEquals(add(Product.TRICHLOR, 50_000), asked(1, "trichlor", "50 kg"));
  }

  /** A time of day is the last one of the site's zone that has passed. */
  @Test
  void aTimeOfDayIsOfTheLastDay() throws Exception {
    ZonedDateTime now = ZonedDateTime.now(ZoneId.of("Europe/Berlin"));
    for (int hours : new int[] {1, 23}) {
      ZonedDateTime at = now.minusHours(hours).truncatedTo(ChronoUnit.MINUTES);
      Command.Add asked = (Command.Add) asked(0, "salt", "1 kg", "--at", time(at.toLocalTime()));
      double agoH = (System.currentTimeMillis() / 1000.0 - asked.atUnixS().getAsDouble()) / 3600;
      // An hour that a change of summer time takes or gives is no matter here.
      assertEquals(hours, agoH, 1.1);
    }
    Command.Add zoned =
        (Command.Add)
            asked(
                0,
                "salt",
                "1 kg",
                "--at",
                now.minusHours(2).truncatedTo(ChronoUnit.SECONDS).toOffsetDateTime().toString());
    assertEquals((double) now.minusHours(2).toEpochSecond(), zoned.atUnixS().getAsDouble());
  }

  private static String time(LocalTime time) {
    return time.truncatedTo(ChronoUnit.MINUTES).toString();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''|one thing at a time",
        "--list;--undo;a1|one thing at a time",
        "salt;1 kg;--list|one thing at a time",
        "--list;--ago;1 h|go with WHAT AMOUNT",
        "salt|WHAT and AMOUNT are wanted",
        "soap;1 kg|choose one of liquid_chlorine",
        "salt;1 gal|unknown unit 'gal'; units: g, kg, oz, lb",
        "muriatic_acid;1 lb|unknown unit 'lb'; units: mL, L, fl_oz, gal",
        "salt;1|has no unit",
        "salt;0 kg|AMOUNT: ",
        "salt;2 packs|need --pack",
        "salt;2 kg;--pack;1 kg|--pack goes with packs",
        "salt;2 kg;--ago;25 h|--ago",
        "salt;2 kg;--ago;1 h;--at;09:30|either --ago or --at",
        "salt;2 kg;--at;noon|--at noon is no time",
        "--undo;../a1|--undo takes an id"
      })
  void whatIsUnusableIsSaidWithItsMend(String arguments, String said) throws Exception {
    Path config = ConfigText.shipped().write(folder);
    String[] given = arguments.isEmpty() ? new String[0] : arguments.split(";");
    assertEquals(2, run(config, given), err.toString());
    assertTrue(err.toString().contains(said), err.toString());
  }

  @Test
  void nobodyAnswersWhereNoDaemonRuns() throws Exception {
    Path config = ConfigText.shipped().write(folder);
    assertEquals(1, run(config, "salt", "1 kg"));
    assertTrue(err.toString().contains("no daemon"), err.toString());
  }

  @Test
  void theListShowsBothSystemsOfUnits() throws Exception {
    assertEquals(
        "a3     2.0 h ago  3785 mL (1 gal) of 12.5 % liquid_chlorine, free chlorine +9.5 mg/L, undone",
        AddCommand.line(
            new ObjectMapper()
                .readTree(
                    "{\"addition\":\"a3\",\"what\":\"liquid_chlorine\",\"amount_ml\":3785.4,"
                        + "\"strength_percent\":12.5,\"age_s\":7200,\"free_chlorine_mg_l\":9.46,"
                        + "\"undone\":true}")));
    assertEquals(
        "a4     0.5 h ago  20000 g (44.09 lb) salt",
        AddCommand.line(
            new ObjectMapper()
                .readTree(
                    "{\"addition\":\"a4\",\"what\":\"salt\",\"amount_g\":20000,\"age_s\":1800,"
                        + "\"undone\":false}")));
  }

  @Test
  void whatHurtsIsSaidOfEach() {
    for (Product product : Product.values()) {
      String said = String.join("\n", AddCautions.of(product));
      assertEquals(
          !product.water() && product != Product.SALT,
          said.contains("Never mix products"),
          product.key());
      assertEquals(product.chlorine(), said.contains("4 mg/L"), product.key());
      assertEquals(!product.water(), said.contains("The pump runs"), product.key());
    }
    assertTrue(AddCautions.of(Product.MURIATIC_ACID).get(1).startsWith("Acid into water"));
    assertTrue(AddCautions.of(Product.DRY_ACID).get(1).contains("never together with chlorine"));
    assertFalse(AddCautions.of(Product.FRESH_WATER).contains("Acid"));
  }
}
