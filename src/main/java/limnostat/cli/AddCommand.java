package limnostat.cli;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limnostat.config.Argument;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationException;
import limnostat.estimate.Product;
import limnostat.water.UsUnits;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code limnostat add}: tells the running daemon what a person added to the pool. */
@Command(
    name = "add",
    description = "Tells the running daemon what was put into the pool by hand; prints its answer.",
    footer = {
      "",
      "For example:  add liquid_chlorine \"1 gal\" --strength 10 --ago \"2 h\"",
      "              add trichlor \"3 packs\" --pack \"200 g\"",
      "              add muriatic_acid \"500 mL\" --at 09:30",
      "              add --list",
      "              add --undo a3",
      "",
      "Units: g, kg, oz, lb for what is weighed; mL, L, fl_oz, gal for what is poured; L, gal,",
      "m3 for water. gal and fl_oz are US.",
      "Only on the machine itself, as a user who may write in the ledger's folder.",
      "Where no daemon answers nothing is recorded; the reason goes to standard error, and the",
      "exit status is 1, as for what is refused."
    })
final class AddCommand implements Callable<Integer> {
  private static final Pattern PACKS = Pattern.compile("\\s*(\\d+(?:\\.\\d+)?)\\s*packs?\\s*");
  private static final Pattern ID = Pattern.compile("[a-z0-9]{1,20}");

  @Mixin private ConfigOption config;
  @Spec private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "WHAT",
      description =
          "liquid_chlorine, calcium_hypochlorite, dichlor, trichlor, lithium_hypochlorite,"
              + " chlorine_pack (granules of unknown kind), non_chlorine_oxidiser, muriatic_acid,"
              + " dry_acid, bicarbonate, soda_ash, stabiliser, salt, calcium_chloride, fresh_water,"
              + " water_out.")
  private String what;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "AMOUNT",
      description = "How much, with its unit: \"2 lb\", \"1 gal\", \"500 g\"; or \"2 packs\".")
  private String amount;

  @Option(
      names = "--pack",
      paramLabel = "SIZE",
      description = "Size of one pack, with its unit; goes with packs.")
  private String pack;

  @Option(
      names = "--strength",
      paramLabel = "PERCENT",
      description =
          "%% of available chlorine, of liquid chlorine g in 100 mL; of acid and calcium chloride"
              + " the pure part. Default: the usual one.")
  private Double strength;

  @Option(
      names = "--ago",
      paramLabel = "TIME",
      description = "How long ago it went in: \"90 min\", \"2 h\"; at most 24 h.")
  private String ago;

  @Option(
      names = "--at",
      paramLabel = "TIME",
      description = "When instead: 09:30 in the site's zone, or 2026-06-01T09:30:00+02:00.")
  private String at;

  @Option(names = "--list", description = "Print the additions of the last days.")
  private boolean list;

  @Option(names = "--undo", paramLabel = "ID", description = "Take one back, by its id.")
  private String undo;

  @Option(names = "--json", description = "Print the answer as one JSON document.")
  private boolean json;

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    boolean entered = what != null || amount != null;
    if ((list ? 1 : 0) + (undo != null ? 1 : 0) + (entered ? 1 : 0) != 1) {
      throw unusable("one thing at a time: WHAT AMOUNT, --list or --undo ID");
    }
    if (!entered && (pack != null || strength != null || ago != null || at != null)) {
      throw unusable("--pack, --strength, --ago and --at go with WHAT AMOUNT");
    }
    if (list) {
      return list(ledger(config.load().configuration()));
    }
    if (undo != null) {
      if (!ID.matcher(undo).matches()) {
        throw unusable("--undo takes an id as --list shows it, for instance a3");
      }
      return BoardRequest.send(
          ledger(config.load().configuration()), "addition_undo", Map.of("addition", undo), json);
    }
    Product product = product();
    Map<String, Object> fields = fields(product);
    Configuration configuration = config.load().configuration();
    if (at != null) {
      fields.put("at", time(configuration.scan().control().zone()));
    }
    String answer = BoardRequest.ask(ledger(configuration), "addition", fields);
    int status = BoardRequest.print(answer, json);
    if (status == Limnostat.DONE && !json) {
      AddCautions.of(product).forEach(System.out::println);
    }
    return status;
  }

  private static Path ledger(Configuration configuration) {
    return configuration.ledger().file();
  }

  private CommandLine.ParameterException unusable(String reason) {
    return new CommandLine.ParameterException(spec.commandLine(), reason);
  }

  private Product product() {
    if (what == null || amount == null) {
      throw unusable("WHAT and AMOUNT are wanted, as liquid_chlorine \"1 gal\"");
    }
    return Product.ofKey(what.toLowerCase(Locale.ROOT).replace('-', '_'))
        .orElseThrow(
            () ->
                unusable(
                    "\""
                        + what
                        + "\" is unknown; choose one of "
                        + Arrays.stream(Product.values())
                            .map(Product::key)
                            .collect(Collectors.joining(", "))));
  }

  private Map<String, Object> fields(Product product) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("what", product.key());
    try {
      Matcher packs = PACKS.matcher(amount);
      if (packs.matches() && !product.water()) {
        if (pack == null) {
          throw unusable("packs need --pack, the size of one, as --pack \"1 lb\"");
        }
        fields.put("packs", Double.valueOf(packs.group(1)));
        fields.put("pack_" + unit(product), measured(product, "--pack", pack));
      } else if (pack != null) {
        throw unusable("--pack goes with packs, as \"2 packs\"");
      } else {
        fields.put("amount_" + unit(product), measured(product, "AMOUNT", amount));
      }
      if (ago != null && at != null) {
        throw unusable("either --ago or --at");
      }
      if (ago != null) {
        fields.put("ago_minutes", Argument.agoS("--ago", ago) / 60);
      }
    } catch (IllegalArgumentException e) {
      throw unusable(e.getMessage());
    }
    if (strength != null) {
      fields.put("strength_percent", strength);
    }
    return fields;
  }

  private static String unit(Product product) {
    return switch (product.measure()) {
      case G -> "g";
      case ML -> "ml";
      case L -> "l";
    };
  }

  private static double measured(Product product, String option, String text) {
    return switch (product.measure()) {
      case G -> Argument.massG(option, text);
      case ML -> Argument.liquidMl(option, text);
      case L -> Argument.waterL(option, text);
    };
  }

  /** A time of day means its most recent occurrence. */
  private String time(ZoneId zone) {
    try {
      if (at.contains("T")) {
        return OffsetDateTime.parse(at).toInstant().toString();
      }
      ZonedDateTime now = Instant.now().truncatedTo(ChronoUnit.SECONDS).atZone(zone);
      ZonedDateTime today = now.with(LocalTime.parse(at));
      return (today.isAfter(now) ? today.minusDays(1) : today).toInstant().toString();
    } catch (DateTimeException e) {
      throw unusable("--at " + at + " is no time, as 09:30 or 2026-06-01T09:30:00+02:00");
    }
  }

  private int list(Path ledger) throws IOException, InterruptedException {
    String document = BoardRequest.ask(ledger, "addition_list", Map.of());
    JsonNode answer = BoardRequest.read(document);
    if (json || !answer.path("result").asText().equals("accepted")) {
      return BoardRequest.print(document, json);
    }
    if (answer.path("additions").isEmpty()) {
      System.out.println("nothing was entered in the last days");
    }
    for (JsonNode addition : answer.path("additions")) {
      System.out.println(line(addition));
    }
    return Limnostat.DONE;
  }

  static String line(JsonNode a) {
    String chlorine =
        a.has("free_chlorine_mg_l")
            ? text(", free chlorine +%.1f mg/L", a.path("free_chlorine_mg_l").asDouble())
            : "";
    String percent =
        a.has("strength_percent")
            ? " of " + figures(a.path("strength_percent").asDouble()) + " %"
            : "";
    return text(
        "%-4s %5.1f h ago  %s%s %s%s%s",
        a.path("addition").asText(),
        a.path("age_s").asDouble() / 3600,
        amount(a),
        percent,
        a.path("what").asText(),
        chlorine,
        a.path("undone").asBoolean() ? ", undone" : "");
  }

  /** The amount in the program's unit, followed by US units. */
  private static String amount(JsonNode a) {
    if (a.has("amount_g")) {
      double g = a.path("amount_g").asDouble();
      return figures(g) + " g (" + figures(g / UsUnits.G_PER_LB) + " lb)";
    }
    if (a.has("amount_ml")) {
      double ml = a.path("amount_ml").asDouble();
      return figures(ml) + " mL (" + figures(ml / 1000 / UsUnits.L_PER_GAL) + " gal)";
    }
    double litres = a.path("amount_l").asDouble();
    return figures(litres) + " L (" + figures(litres / UsUnits.L_PER_GAL) + " gal)";
  }

  private static String figures(double value) {
    return new BigDecimal(value, new MathContext(4)).stripTrailingZeros().toPlainString();
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
