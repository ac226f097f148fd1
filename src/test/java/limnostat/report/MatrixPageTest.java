package limnostat.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class MatrixPageTest {
  /** The page's table is the matrix that the interlocks evaluate. */
  @Test
  void thePageShowsTheMatrix() throws IOException {
    List<String> shown =
        Files.readAllLines(Path.of("src/site/markdown/interlocks.md")).stream()
            .dropWhile(line -> !line.startsWith("| cause |"))
            .takeWhile(line -> line.startsWith("|"))
            .toList();
    assertEquals(
        String.join("\n", MatrixTable.lines(MatrixTable.rows())), String.join("\n", shown));
  }
}
