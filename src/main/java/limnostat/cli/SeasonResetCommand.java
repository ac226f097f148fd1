package limnostat.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import limnostat.config.ConfigurationException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code limnostat season-reset}: the season's totals begin anew. */
@Command(
    name = "season-reset",
    description = "Asks that the season's totals of chlorine and acid begin anew.",
    footer = {
      "",
      "It takes effect when the daemon starts the next time. Only on the machine itself, as a user",
      "who may write in the ledger's folder; no command over the network does it."
    })
final class SeasonResetCommand implements Callable<Integer> {
  @Mixin private ConfigOption config;

  @Override
  public Integer call() throws ConfigurationException, IOException {
    Path ledger = config.load().configuration().ledger().file();
    try {
      SeasonReset.leave(ledger);
    } catch (IOException e) {
      throw new IOException(
          SeasonReset.marker(ledger)
              + " cannot be written ("
              + e
              + "); run this as the user of the service",
          e);
    }
    System.out.println(
        "The season's totals begin anew when the daemon starts the next time, as after"
            + " \"systemctl restart limnostat\".");
    return Limnostat.DONE;
  }
}
