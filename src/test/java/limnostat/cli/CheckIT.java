package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import limnostat.rig.ConfigText;
import limnostat.rig.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The packaged program's check, its help, and what it says to arguments that are none. */
@Timeout(60)
class CheckIT {
  @TempDir Path folder;

  private static Program ended(int status, String... arguments) throws Exception {
    try (Program program = Program.limnostat(arguments)) {
      assertEquals(status, program.exit(), program.out() + " " + program.err());
      return program;
    }
  }

  @Test
  void printsWhatIsInForce() throws Exception {
    Program check = ended(0, "check", "--config", "config/limnostat.toml");
    assertTrue(
        check.out().stream().anyMatch(l -> l.equals("  volume = 50 m3")), check.out().toString());
    assertEquals(0, check.err().size(), check.err().toString());
  }

  @Test
  void aFaultyFileIsToldByItsPlaces() throws Exception {
    Path file =
        ConfigText.feedingSoon()
            .with("pool.volume", "\"50 bathtubs\"")
            .with("limits.orp_high", "\"2 V\"")
            .write(folder);
    for (String command : new String[] {"check", "run", "bench"}) {
      Program told = ended(2, command, "--config", file.toString());
      assertEquals(2, told.err().size(), told.err().toString());
      for (String line : told.err()) {
        assertTrue(
            line.matches(
                "\\Q" + file + "\\E:[1-9]\\d*:[1-9]\\d*: (pool\\.volume|limits\\.orp_high): .+"),
            line);
      }
    }
  }

  @Test
  void namesWhatABoardConfigurationMissesOnThisMachine() throws Exception {
    Path file =
        ConfigText.board().with("board.sysfs", "\"" + folder.resolve("sys") + "\"").write(folder);
    Program check = ended(1, "check", "--config", file.toString());
    String all = String.join("\n", check.out());
    assertTrue(all.contains("MISSING  board: this machine is no board"), all);
    assertTrue(all.contains("MISSING  1-wire") || all.contains("28-0123456789ab"), all);

    Program json = ended(1, "check", "--json", "--config", file.toString());
    JsonNode document = new ObjectMapper().readTree(String.join("\n", json.out()));
    assertTrue(document.at("/configuration").isObject(), all);
    assertTrue(document.at("/wiring").size() >= 3, document.at("/wiring").toString());
    assertFalse(document.at("/wiring/0/good").asBoolean(true), document.at("/wiring").toString());
    assertTrue(document.at("/warnings").isArray());
  }

  @Test
  void aFolderThatOthersMayWriteIsTold() throws Exception {
    Path file = ConfigText.feedingSoon().withoutBroker().write(folder);
    ended(0, "check", "--config", file.toString());
    for (String name : new String[] {"limnostat.db.commands", "limnostat.db.native"}) {
      Path open = Files.createDirectory(folder.resolve(name));
      Files.setPosixFilePermissions(open, PosixFilePermissions.fromString("rwxrwx---"));
      Program check = ended(1, "check", "--config", file.toString());
      String all = String.join("\n", check.out());
      assertTrue(all.contains("warning: " + open + " may be written by others"), all);
      Files.setPosixFilePermissions(open, PosixFilePermissions.fromString("rwx------"));
    }
    ended(0, "check", "--config", file.toString());
  }

  @Test
  void jsonOfAGoodFileParses() throws Exception {
    Program json = ended(0, "check", "--json", "--config", "config/limnostat.toml");
    JsonNode document = new ObjectMapper().readTree(String.join("\n", json.out()));
    assertEquals(0, document.at("/wiring").size());
    assertTrue(document.at("/configuration").size() > 0, document.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"run", "demo", "check", "bench"})
  void everyCommandHasHelp(String command) throws Exception {
    Program help = ended(0, command, "--help");
    assertTrue(help.out().get(0).startsWith("Usage: limnostat " + command), help.out().toString());
    assertTrue(
        ended(0, "--help").out().stream().anyMatch(line -> line.strip().startsWith(command)));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "dance",
        "run",
        "check",
        "bench",
        "run --config",
        "run --config absent.toml",
        "check --config absent.toml",
        "demo --speed fast",
        "demo --speed 0",
        "demo --speed 100001",
        "demo --days 0",
        "demo --colour",
        "run --config config/limnostat.toml more"
      })
  void unusableArgumentsAreToldAndEndWith2(String arguments) throws Exception {
    Program told = ended(2, arguments.isEmpty() ? new String[0] : arguments.split(" "));
    assertTrue(told.err().size() > 0, "it says why");
  }
}
