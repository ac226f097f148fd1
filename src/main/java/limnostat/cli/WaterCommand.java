package limnostat.cli;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Arrays;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import limnostat.config.Argument;
import limnostat.report.WaterReport;
import limnostat.water.ChlorineForm;
import limnostat.water.advice.Assessment;
import limnostat.water.advice.PoolTest;
import limnostat.water.advice.Supplies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code limnostat water}: the conclusions from a person's water test. It touches no hardware. */
@Command(
    name = "water",
    description =
        "Chlorine speciation, expected ORP, balance, what is out of range and what to add, from a"
            + " water test. Give what you tested; touches no hardware.",
    footer = {
      "",
      "Concentrations are plain numbers in mg/L (ppm).",
      "Exit status: 0 done, 2 unusable arguments or values that the chemistry does not cover.",
      "An aid, not protection: test the water yourself before anyone bathes."
    })
final class WaterCommand implements Callable<Integer> {
  @Option(
      names = "--volume",
      paramLabel = "V",
      description = "Water volume with a unit: \"50 m3\", \"50000 L\", \"13500 gal\" (US).")
  private String volume;

  @Option(names = "--free-chlorine", paramLabel = "N", description = "mg/L.")
  private Double freeChlorine;

  @Option(names = "--combined-chlorine", paramLabel = "N", description = "mg/L.")
  private Double combinedChlorine;

  @Option(names = "--ph", paramLabel = "N", description = "pH.")
  private Double ph;

  @Option(names = "--total-alkalinity", paramLabel = "N", description = "mg/L as CaCO3.")
  private Double totalAlkalinity;

  @Option(names = "--cyanuric-acid", paramLabel = "N", description = "Stabiliser, mg/L.")
  private Double cyanuricAcid;

  @Option(names = "--calcium-hardness", paramLabel = "N", description = "mg/L as CaCO3.")
  private Double calciumHardness;

  @Option(names = "--salt", paramLabel = "N", description = "mg/L as NaCl.")
  private Double salt;

  @Option(
      names = "--temperature",
      paramLabel = "T",
      description = "Water temperature with a unit: \"28 degC\", \"82 degF\".")
  private String temperature;

  @Option(
      names = "--chlorine",
      paramLabel = "FORM",
      defaultValue = "liquid",
      description =
          "Chlorine in use: liquid (default), cal-hypo, dichlor, trichlor, lithium, salt-cell.")
  private String chlorine;

  @Option(
      names = "--strength",
      paramLabel = "N",
      description =
          "Its strength: %% available chlorine; liquid trade %% (g Cl2 in 100 mL); cell g/h at full"
              + " output. Default: the usual one; a cell has none.")
  private Double strength;

  @Option(
      names = "--acid",
      paramLabel = "KIND",
      defaultValue = "muriatic",
      description = "muriatic (31.45 %%, default) or dry (sodium bisulfate, 93.2 %%).")
  private String acid;

  @Option(
      names = "--oxidise",
      paramLabel = "WITH",
      defaultValue = "when-needed",
      description =
          "This week's oxidation: chlorine, non-chlorine, or when-needed (default: chlorine where"
              + " combined chlorine is high).")
  private String oxidise;

  @Option(names = "--indoor", description = "No sun on the water: no stabiliser.")
  private boolean indoor;

  @Option(names = "--us", description = "Show amounts and temperatures in US units.")
  private boolean us;

  @Option(names = "--json", description = "Print one JSON document.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    Assessment water;
    try {
      water = Assessment.of(test(), supplies());
    } catch (IllegalArgumentException e) {
      // out of the valid range of the chemistry, or not a quantity; the message names value and
      // remedy
      spec.commandLine().getErr().println("limnostat water: " + e.getMessage());
      return Limnostat.UNUSABLE;
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      ObjectMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
      out.println(mapper.writeValueAsString(WaterReport.document(water, us)));
    } else {
      WaterReport.lines(water, us).forEach(out::println);
    }
    out.flush();
    return Limnostat.DONE;
  }

  private PoolTest test() {
    return new PoolTest(
        volume == null
            ? OptionalDouble.empty()
            : OptionalDouble.of(Argument.volumeM3("--volume", volume)),
        entered(freeChlorine),
        entered(combinedChlorine),
        entered(ph),
        entered(totalAlkalinity),
        entered(cyanuricAcid),
        entered(calciumHardness),
        entered(salt),
        temperature == null
            ? OptionalDouble.empty()
            : OptionalDouble.of(Argument.temperatureC("--temperature", temperature)));
  }

  private Supplies supplies() {
    ChlorineForm form = chosen("--chlorine", chlorine, ChlorineForm.values(), ChlorineForm::key);
    if (form == ChlorineForm.SALT_CELL && strength == null) {
      throw new IllegalArgumentException(
          "--strength: a salt cell needs its output in g/h; read its label");
    }
    return new Supplies(
        form,
        strength == null ? form.usualPercent() : strength,
        chosen("--acid", acid, Supplies.Acid.values(), WaterCommand::key),
        chosen("--oxidise", oxidise, Supplies.Oxidation.values(), WaterCommand::key),
        indoor);
  }

  private static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static <T> T chosen(String option, String text, T[] values, Function<T, String> key) {
    return Arrays.stream(values)
        .filter(value -> key.apply(value).equals(text))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    option
                        + ": \""
                        + text
                        + "\" is unknown; choose one of "
                        + Arrays.stream(values).map(key).collect(Collectors.joining(", "))));
  }

  private static OptionalDouble entered(Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
