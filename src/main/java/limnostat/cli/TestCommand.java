package limnostat.cli;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import limnostat.config.ConfigurationException;
import limnostat.estimate.Glance;
import limnostat.estimate.TestKit;
import limnostat.estimate.Tested;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code limnostat test}: enters a water test into the running daemon, without a broker. */
@Command(
    name = "test",
    modelTransformer = TestCommand.Quantities.class,
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

  /** An option for each quantity that can be tested. */
  static final class Quantities implements CommandLine.IModelTransformer {
    @Override
    public CommandSpec transform(CommandSpec command) {
      for (Tested quantity : Tested.values()) {
        command.addOption(
            CommandLine.Model.OptionSpec.builder(option(quantity))
                .type(Double.class)
                .paramLabel("N")
                .description(described(quantity))
                .build());
      }
      return command;
    }

    private static String described(Tested quantity) {
      String words = quantity.words().substring(0, 1).toUpperCase(Locale.ROOT);
      String name = quantity == Tested.PH ? "pH" : words + quantity.words().substring(1);
      return quantity.unit().isEmpty()
          ? name + "."
          : name + ", " + quantity.unit() + unitOf(quantity);
    }

    private static String unitOf(Tested quantity) {
      return switch (quantity) {
        case TOTAL_ALKALINITY, CALCIUM_HARDNESS -> " as calcium carbonate.";
        default -> ".";
      };
    }
  }

  private static String option(Tested quantity) {
    return "--" + quantity.id().replace('_', '-');
  }

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    Map<String, Object> values = new LinkedHashMap<>();
    for (Tested quantity : Tested.values()) {
      values.put(quantity.key(), spec.findOption(option(quantity)).getValue());
    }
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
