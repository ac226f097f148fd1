package limnostat.cli;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import limnostat.config.ConfigurationException;
import limnostat.estimate.Glance;
import limnostat.estimate.TestKit;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code limnostat test}: enters a water test into the running daemon, without a broker. */
@Command(
    name = "test",
    description = "Hands a water test to the running daemon and prints its answer.",
    footer = {
      "",
      "Only on the machine itself, as a user who may write in the ledger's folder.",
      "Where no daemon answers nothing is recorded; the reason goes to standard",
      "error, and the exit status is 1, as for a test that is refused."
    })
final class TestCommand implements Callable<Integer> {
  @Mixin private ConfigOption config;
  @Spec private CommandSpec spec;

  @Option(names = "--free-chlorine", paramLabel = "MG_L", description = "Free chlorine, mg/L.")
  private Double freeChlorine;

  @Option(
      names = "--combined-chlorine",
      paramLabel = "MG_L",
      description = "Combined chlorine, mg/L.")
  private Double combinedChlorine;

  @Option(names = "--total-chlorine", paramLabel = "MG_L", description = "Total chlorine, mg/L.")
  private Double totalChlorine;

  @Option(names = "--ph", paramLabel = "PH", description = "pH.")
  private Double ph;

  @Option(
      names = "--alkalinity",
      paramLabel = "MG_L",
      description = "Total alkalinity, mg/L as calcium carbonate.")
  private Double alkalinity;

  @Option(names = "--cyanuric-acid", paramLabel = "MG_L", description = "Stabiliser, mg/L.")
  private Double cyanuricAcid;

  @Option(
      names = "--calcium",
      paramLabel = "MG_L",
      description = "Calcium hardness, mg/L as calcium carbonate.")
  private Double calcium;

  @Option(names = "--salt", paramLabel = "MG_L", description = "Salt, mg/L.")
  private Double salt;

  @Option(
      names = "--quick",
      paramLabel = "SEEN",
      description =
          "Free chlorine at a glance on a strip, instead of --free-chlorine: none (0 to 0.3 mg/L),"
              + " little (0.3 to 1.5), plenty (1.5 and more).")
  private Glance quick;

  @Option(
      names = "--kit",
      paramLabel = "KIT",
      description =
          "What free chlorine was read with: drops, comparator, strips, photometer. Default: test.kit"
              + " of the configuration.")
  private String kit;

  @Option(names = "--json", description = "Print the answer as one JSON document.")
  private boolean json;

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put("free_chlorine_mg_l", freeChlorine);
    values.put("combined_chlorine_mg_l", combinedChlorine);
    values.put("total_chlorine_mg_l", totalChlorine);
    values.put("ph", ph);
    values.put("total_alkalinity_mg_l", alkalinity);
    values.put("cyanuric_acid_mg_l", cyanuricAcid);
    values.put("calcium_hardness_mg_l", calcium);
    values.put("salt_mg_l", salt);
    values.put("free_chlorine_quick", quick == null ? null : quick.key());
    values.values().removeIf(value -> value == null);
    if (values.isEmpty()) {
      throw new CommandLine.ParameterException(
          spec.commandLine(),
          "a test has at least one value, as --free-chlorine 3.1 or --quick little");
    }
    if (kit != null) {
      values.put("kit", kit(kit));
    }
    return BoardRequest.send(
        config.load().configuration().ledger().file(), "test_result", values, json);
  }

  private String kit(String key) {
    return TestKit.ofKey(key)
        .map(TestKit::key)
        .orElseThrow(
            () ->
                new CommandLine.ParameterException(
                    spec.commandLine(),
                    "--kit \""
                        + key
                        + "\" is unknown; choose one of "
                        + TestKit.NAMED.stream()
                            .map(TestKit::key)
                            .collect(Collectors.joining(", "))));
  }
}
