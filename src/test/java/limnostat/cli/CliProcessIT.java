package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import limnostat.daemon.HangGuard;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Log, guard and a start that fails, in processes of their own. */
class CliProcessIT {
  @TempDir private Path folder;

  private Process start(String name, String... arguments) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-cp"));
    command.add(System.getProperty("java.class.path"));
    command.addAll(List.of(arguments));
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectOutput(folder.resolve(name + ".out").toFile())
            .redirectError(folder.resolve(name + ".err").toFile());
    builder.environment().keySet().removeAll(List.of("NOTIFY_SOCKET", "JOURNAL_STREAM"));
    return builder.start();
  }

  private int end(Process process) throws InterruptedException {
    try {
      assertTrue(process.waitFor(60, TimeUnit.SECONDS), "the process hangs");
      return process.exitValue();
    } finally {
      process.destroyForcibly();
    }
  }

  private String text(String file) throws IOException {
    return Files.readString(folder.resolve(file));
  }

  /** A disk that is mended brings the ledger back (NoDiskIT); another program's file never does. */
  @Test
  void aStartThatFailsSaysWhy() throws Exception {
    Path other = folder.resolve("other.db");
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + other);
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE recipe (name TEXT)");
      statement.execute("PRAGMA application_id = 7");
    }
    String settings = Files.readString(Path.of("config", "limnostat.toml"));
    String file = "file = \"limnostat.db\"";
    assertTrue(settings.contains(file));
    Path config =
        Files.writeString(
            folder.resolve("limnostat.toml"),
            settings
                .replace(file, "file = \"" + other + "\"")
                .replaceFirst("(?m)^enabled = true", "enabled = false"));
    int status = end(start("run", Limnostat.class.getName(), "run", "--config", config.toString()));
    assertEquals(Limnostat.FAILED, status);
    assertTrue(text("run.err").contains(other.toString()), text("run.err"));
    assertEquals(1, text("run.err").lines().count(), text("run.err"));
  }

  @Test
  void theLogTellsWhatMatters() throws Exception {
    assertEquals(0, end(start("log", CliProcess.class.getName(), "log")));
    List<String> lines =
        text("log.err").lines().map(line -> line.replaceFirst("^[0-9-]+ [0-9:]+ ", "")).toList();
    assertTrue(lines.contains("WARN input cell_a is missing: cable"), lines.toString());
    assertEquals(1, lines.stream().filter(line -> line.contains("is missing")).count());
    assertTrue(lines.contains("INFO input cell_a is back"), lines.toString());
    assertTrue(
        lines.stream().anyMatch(line -> line.startsWith("WARN alarm orp_high (high)")),
        lines.toString());
    assertTrue(
        lines.stream().anyMatch(line -> line.startsWith("INFO alarm water_cold (low)")),
        lines.toString());
    assertTrue(lines.stream().noneMatch(line -> line.contains("no_flow")), "the pump's rest");
    assertTrue(
        lines.stream().anyMatch(line -> line.contains("refused: because {} of")), lines.toString());
    assertTrue(lines.stream().anyMatch(line -> line.contains("no scan for 90 s")));
  }

  /** The guard waits 8 s for a scan of no period; all four at once, as they only wait. */
  @Test
  void aHungScanEndsTheProcessWhateverTheOutputsDo() throws Exception {
    List<Process> processes = new ArrayList<>();
    List<String> modes = List.of("guard", "guard-fails", "guard-hangs", "guard-is-fed");
    for (String mode : modes) {
      processes.add(start(mode, CliProcess.class.getName(), mode));
    }
    List<Integer> statuses = new ArrayList<>();
    for (Process process : processes) {
      statuses.add(end(process));
    }
    int hung = HangGuard.EXIT_HUNG;
    assertEquals(List.of(hung, hung, hung, 0), statuses);
    assertEquals("off\n", text("guard.out"));
    assertTrue(text("guard.err").startsWith("<2>limnostat: no scan for 8 s"), text("guard.err"));
    assertTrue(text("guard-fails.err").contains("no board"), text("guard-fails.err"));
    assertEquals("", text("guard-is-fed.out"));
  }
}
