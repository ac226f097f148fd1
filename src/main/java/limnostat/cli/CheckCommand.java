package limnostat.cli;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import limnostat.config.ConfigurationException;
import limnostat.config.ConfigurationFile;
import limnostat.config.ConfigurationReport;
import limnostat.config.FieldSettings;
import limnostat.field.board.BoardCheck;
import limnostat.mqtt.Link;
import limnostat.report.MatrixTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/**
 * {@code limnostat check}: what a configuration means, and whether the wiring it asks for is there.
 */
@Command(
    name = "check",
    description =
        "Prints the effective configuration, the I/O list and the limits, and looks whether the"
            + " devices are there. Drives nothing.",
    footer = {"", "Exit status: 0 all there, 1 a device is missing, 2 a faulty configuration."})
final class CheckCommand implements Callable<Integer> {
  @Mixin private ConfigOption config;

  @Option(names = "--json", description = "Print one JSON document.")
  private boolean json;

  @Option(names = "--matrix", description = "Print the cause-and-effect matrix and nothing else.")
  private boolean matrix;

  @Override
  public Integer call() throws ConfigurationException, IOException {
    ConfigurationFile file = config.load();
    if (matrix) {
      MatrixTable.lines().forEach(System.out::println);
      return Limnostat.DONE;
    }
    ConfigurationReport report = ConfigurationReport.of(file);
    List<BoardCheck.Finding> wiring =
        file.configuration().field() instanceof FieldSettings.Board board
            ? BoardCheck.check(board)
            : List.of();
    List<String> warnings =
        Stream.of(Link.warning(file.configuration().mqtt()), ConfigurationReport.warning(file))
            .flatMap(Optional::stream)
            .toList();
    if (json) {
      Map<String, Object> document = new LinkedHashMap<>();
      document.put("configuration", report);
      document.put("wiring", wiring);
      document.put("warnings", warnings);
      ObjectMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
      System.out.println(mapper.writeValueAsString(document));
    } else {
      report.lines().forEach(System.out::println);
      warnings.forEach(text -> System.out.println("\nwarning: " + text));
      if (!wiring.isEmpty()) {
        System.out.println("\nWiring");
        wiring.forEach(
            f -> System.out.println((f.good() ? "  ok       " : "  MISSING  ") + f.text()));
      }
    }
    return wiring.stream().allMatch(BoardCheck.Finding::good) ? Limnostat.DONE : Limnostat.FAILED;
  }
}
