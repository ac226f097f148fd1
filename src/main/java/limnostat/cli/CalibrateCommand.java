package limnostat.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import limnostat.config.ConfigurationException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code limnostat calibrate}: one step of a calibration, done by the running daemon. */
@Command(
    name = "calibrate",
    description = "One step of a calibration by the running daemon; prints its answer.",
    footer = {
      "",
      "In order:  --begin 60                    chlorine and acid are held",
      "           --ph 6.865 --temperature 25   in a buffer near pH 7, once it is still",
      "           --ph 4.006 --temperature 25   in a second one",
      "           --orp 470                     in a standard for ORP, once it is still",
      "           --begin 0                     probes back; it is over"
    })
final class CalibrateCommand implements Callable<Integer> {
  /** The probes, by the names that people use. */
  enum Probe {
    PH,
    ORP
  }

  @Mixin private ConfigOption config;
  @Spec private CommandSpec spec;

  @Option(
      names = "--begin",
      paramLabel = "MIN",
      description = "Begins the function check, for at most so many minutes; 0 ends it.")
  private Double beginMin;

  @Option(names = "--ph", paramLabel = "PH", description = "pH of the buffer at its temperature.")
  private Double ph;

  @Option(
      names = "--temperature",
      paramLabel = "DEG_C",
      description = "Temperature of the buffer, °C; goes with --ph.")
  private Double temperatureC;

  @Option(
      names = "--orp",
      paramLabel = "MV",
      description = "What a good probe reads in the standard, mV.")
  private Double orpMv;

  @Option(
      names = "--undo",
      paramLabel = "PROBE",
      description = "Back to the file's values: ${COMPLETION-CANDIDATES}.")
  private Probe undo;

  @Option(names = "--json", description = "Print the answer as one JSON document.")
  private boolean json;

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    if (Stream.of(beginMin, ph, orpMv, undo).filter(step -> step != null).count() != 1
        || (ph == null) != (temperatureC == null)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(),
          "one step at a time: --begin MIN, --ph PH --temperature DEG_C, --orp MV or --undo PROBE");
    }
    Path ledger = config.load().configuration().ledger().file();
    if (beginMin != null) {
      return BoardRequest.send(ledger, "function_check", Map.of("minutes", beginMin), json);
    }
    if (ph != null) {
      return BoardRequest.send(
          ledger,
          "calibrate",
          Map.of("probe", "ph", "ph", ph, "temperature_c", temperatureC),
          json);
    }
    if (orpMv != null) {
      return BoardRequest.send(ledger, "calibrate", Map.of("probe", "orp", "orp_mv", orpMv), json);
    }
    String probe =
        switch (undo) {
          case PH -> "ph";
          case ORP -> "orp";
        };
    return BoardRequest.send(ledger, "calibrate_undo", Map.of("probe", probe), json);
  }
}
