package limnostat.cli;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import limnostat.config.ConfigurationException;
import limnostat.config.ConfigurationFile;
import limnostat.config.ConfigurationReport;
import limnostat.config.FieldSettings;
import limnostat.field.board.BoardCheck;
import limnostat.ledger.OwnFolder;
import limnostat.mqtt.Link;
import limnostat.report.MatrixTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * {@code limnostat check}: what a configuration means, and whether the wiring it needs is there.
 */
@Command(
    name = "check",
    description =
        "Prints the effective configuration, the I/O list and the limits, and looks whether the"
            + " devices are there. Drives nothing.",
    footer = {
      "",
      "Exit status: 0 all there, 1 a device is missing or a folder of the program's is not safe, 2 a"
          + " faulty configuration."
    })
final class CheckCommand implements Callable<Integer> {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  @Option(
      names = {"-c", "--config"},
      paramLabel = "FILE",
      description = "The configuration file (TOML); needed but for --matrix.")
  private Path file;

  @Spec private CommandSpec spec;

  @Option(names = "--json", description = "Print one JSON document.")
  private boolean json;

  @Option(
      names = "--matrix",
      description =
          "Print the cause-and-effect matrix and nothing else: with --config that of the"
              + " installation, with its limits and what cannot occur in it; else as it is in"
              + " general.")
  private boolean matrix;

  @Override
  public Integer call() throws ConfigurationException, IOException {
    if (matrix) {
      print(
          file == null
              ? MatrixTable.rows()
              : MatrixTable.rows(ConfigurationFile.load(file).configuration().scan()));
      return Limnostat.DONE;
    }
    if (file == null) {
      throw new ParameterException(
          spec.commandLine(),
          "Missing required option: '--config=FILE'; only --matrix goes without");
    }
    return check(ConfigurationFile.load(file));
  }

  private void print(List<MatrixTable.Row> rows) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(MAPPER.writeValueAsString(Map.of("matrix", rows)));
    } else {
      MatrixTable.lines(rows).forEach(out::println);
    }
    out.flush();
  }

  private int check(ConfigurationFile file) throws IOException {
    ConfigurationReport report = ConfigurationReport.of(file);
    List<BoardCheck.Finding> wiring =
        file.configuration().field() instanceof FieldSettings.Board board
            ? BoardCheck.check(board)
            : List.of();
    List<String> folders = folders(file.configuration().ledger().file());
    List<String> warnings =
        Stream.concat(
                folders.stream(),
                Stream.concat(
                    Link.warning(file.configuration().mqtt()).stream(),
                    ConfigurationReport.warnings(file).stream()))
            .toList();
    if (json) {
      Map<String, Object> document = new LinkedHashMap<>();
      document.put("configuration", report);
      document.put("wiring", wiring);
      document.put("warnings", warnings);
      System.out.println(MAPPER.writeValueAsString(document));
    } else {
      report.lines().forEach(System.out::println);
      warnings.forEach(text -> System.out.println("\nwarning: " + text));
      if (!wiring.isEmpty()) {
        System.out.println("\nWiring");
        wiring.forEach(
            f -> System.out.println((f.good() ? "  ok       " : "  MISSING  ") + f.text()));
      }
    }
    return folders.isEmpty() && wiring.stream().allMatch(BoardCheck.Finding::good)
        ? Limnostat.DONE
        : Limnostat.FAILED;
  }

  /**
   * Why the program's own folders, where they exist, cannot be trusted. They must belong to the
   * owner of the ledger, because another user may run this check.
   */
  private static List<String> folders(Path ledger) throws IOException {
    List<String> faults = new ArrayList<>();
    for (Path folder : List.of(OwnFolder.commands(ledger), OwnFolder.natives(ledger))) {
      if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        int user = Files.exists(ledger) ? OwnFolder.owner(ledger) : OwnFolder.ownUser();
        OwnFolder.fault(folder, user).ifPresent(faults::add);
      }
    }
    return faults;
  }
}
