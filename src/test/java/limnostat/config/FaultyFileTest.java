package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every fault is found, at its place, all at once, and in words that tell the mend. */
class FaultyFileTest {
  @TempDir Path folder;

  /**
   * The cases of {@code faults.txt}: a text to start from, edits of it, and the exact lines of
   * error.
   */
  static Stream<Arguments> faults() throws IOException {
    try (InputStream in = FaultyFileTest.class.getResourceAsStream("faults.txt")) {
      String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      List<Arguments> cases =
          Arrays.stream(all.split("\n\n"))
              .map(block -> block.lines().filter(line -> !line.startsWith("#")).toList())
              .filter(lines -> !lines.isEmpty())
              .map(FaultyFileTest::oneCase)
              .toList();
      assertTrue(cases.size() > 90, cases.size() + " cases");
      return cases.stream();
    }
  }

  private static Arguments oneCase(List<String> lines) {
    String title = lines.get(0);
    String text = title.startsWith("board: ") ? Sample.MINIMAL_BOARD : Sample.MINIMAL;
    List<String> expected = new ArrayList<>();
    StringBuilder from = new StringBuilder();
    StringBuilder to = new StringBuilder();
    for (int i = 1; i <= lines.size(); i++) {
      String line = i < lines.size() ? lines.get(i) : "";
      boolean remove = line.startsWith("- ");
      if (!(line.startsWith("+ ") || (remove && to.isEmpty())) && !(from + "" + to).isEmpty()) {
        // Nothing to replace: at the end.
        text = from.isEmpty() ? text + to : Sample.edit(text, from.toString(), to.toString());
        from.setLength(0);
        to.setLength(0);
      }
      if (remove) {
        from.append(line.substring(2)).append('\n');
      } else if (line.startsWith("+ ")) {
        to.append(line.substring(2)).append('\n');
      } else if (line.startsWith("! ")) {
        expected.add(line.substring(2));
      }
    }
    assertTrue(!expected.isEmpty(), title + " expects something");
    return Arguments.of(title, text, expected);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("faults")
  void isFound(String title, String text, List<String> expected) {
    assertEquals(
        String.join("\n", expected), String.join("\n", Sample.faults(folder, text)), title);
  }

  @Test
  void theSamplesAreWithoutFault() {
    assertEquals(List.of(), Sample.faults(folder, Sample.MINIMAL));
    assertEquals(List.of(), Sample.faults(folder, Sample.MINIMAL_BOARD));
  }

  @Test
  void aFileThatCannotBeReadIsOneFault() throws IOException {
    Path missing = folder.resolve("none.toml");
    assertEquals(missing + ":1:1: there is no such file; name a file that is there", only(missing));
    assertTrue(only(folder).startsWith(folder + ":1:1: the file cannot be read: "), only(folder));
    Path large = folder.resolve("large.toml");
    Files.writeString(large, "#".repeat(300_000));
    assertTrue(only(large).contains("the file is too large; at most 256 KiB"), only(large));
    Path empty = folder.resolve("empty.toml");
    Files.writeString(empty, "");
    ConfigurationException e = thrown(empty);
    assertTrue(
        e.errors().stream().allMatch(error -> error.line() == 1 && error.column() == 1),
        e.getMessage());
    assertTrue(e.getMessage().contains("site.id: is missing"), e.getMessage());
  }

  @Test
  void aFileThatIsNotUtf8IsToldWithThePlace() throws IOException {
    Path file = folder.resolve("latin1.toml");
    Files.write(file, "[site]\nid = \"gr\u00fcn\"\n".getBytes(StandardCharsets.ISO_8859_1));
    assertEquals(file + ":2:9: the file is not UTF-8 here; UTF-8; save it as UTF-8", only(file));
  }

  @Test
  void deepNestingIsRefused() throws IOException {
    Path file = folder.resolve("deep.toml");
    Files.writeString(file, "a = " + "[".repeat(60_000));
    assertTrue(!thrown(file).errors().isEmpty());
  }

  /** One fault is one line, whatever the file holds. */
  @Test
  void textOfTheFileCannotBreakTheLine() {
    List<String> faults =
        Sample.faults(folder, Sample.MINIMAL + "[mqtt]\nuser = \"a\\n2:1: b\\u001b[31m\"\n");
    assertEquals(1, faults.size());
    assertTrue(faults.get(0).matches("21:1: mqtt\\.user: \\P{Cntrl}*"), faults.get(0));
  }

  private static ConfigurationException thrown(Path file) {
    return assertThrows(ConfigurationException.class, () -> Configuration.load(file));
  }

  private static String only(Path file) {
    ConfigurationException e = thrown(file);
    assertEquals(1, e.errors().size(), e.getMessage());
    return e.getMessage();
  }
}
