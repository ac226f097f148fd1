package limnostat.cli;

import java.io.IOException;
import java.util.Map;
import java.util.concurrent.Callable;
import limnostat.config.ConfigurationException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code limnostat season-reset}: restarts the season's totals from zero. */
@Command(
    name = "season-reset",
    description = "The season's totals of chlorine and acid begin anew.",
    footer = {
      "",
      "It takes effect at once. Only on the machine itself, as a user who may write in the ledger's",
      "folder, while the daemon runs. No command over the network does it."
    })
final class SeasonResetCommand implements Callable<Integer> {
  @Mixin private ConfigOption config;

  @Option(names = "--json", description = "Print the answer as one JSON document.")
  private boolean json;

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    return BoardRequest.send(
        config.load().configuration().ledger().file(), "season_reset", Map.of(), json);
  }
}
