package limnostat.bench;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LineReaderTest {
  private static List<String> lines(InputStream in) throws IOException {
    LineReader reader = new LineReader(in);
    List<String> lines = new ArrayList<>();
    for (byte[] line = reader.next(); line != null; line = reader.next()) {
      lines.add(new String(line, StandardCharsets.UTF_8));
      assertEquals(lines.size(), reader.number());
    }
    assertNull(reader.next(), "the end stays the end");
    return lines;
  }

  private static InputStream in(String text) {
    return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
  }

  /** A pipe hands over as little as it likes. */
  private static InputStream pipe(byte[] bytes, int most, Random random) {
    return new ByteArrayInputStream(bytes) {
      @Override
      public synchronized int read(byte[] b, int off, int len) {
        return super.read(b, off, Math.min(len, 1 + random.nextInt(most)));
      }
    };
  }

  @Test
  void linesWithAndWithoutAFinalLineFeed() throws IOException {
    assertEquals(List.of(), lines(in("")));
    assertEquals(List.of("a", "b"), lines(in("a\nb\n")));
    assertEquals(List.of("a", "b"), lines(in("a\nb")));
  }

  @Test
  void emptyLinesAreLines() throws IOException {
    assertEquals(List.of("", "", "a", ""), lines(in("\n\na\n\n")));
  }

  @Test
  void linesDoNotDependOnHowTheyArrive() throws IOException {
    Random random = new Random(6);
    List<String> expected = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < 400; i++) {
      String line = "é".repeat(random.nextInt(random.nextInt(20) == 0 ? 20_000 : 200));
      expected.add(line);
      text.append(line).append('\n');
    }
    byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
    for (int most : new int[] {1, 7, 1000, 1 << 20}) {
      assertEquals(expected, lines(pipe(bytes, most, random)), "at most " + most);
    }
  }

  @Test
  void aLineThatIsTooLongIsCutAndTheNextIsWhole() throws IOException {
    String longest = "x".repeat(64 * 1024);
    String text = "x".repeat(1 << 20) + "\n" + longest + "\nb\n" + longest + "y";
    String cut = longest + "x";
    assertEquals(List.of(cut, longest, "b", longest + "y"), lines(in(text)));
  }

  /** What is cut off may be blanks only, and the rest look like a whole document. */
  @Test
  void aPaddedDocumentThatIsTooLongIsRefused() throws IOException {
    String document = "{\"t\":1,\"in\":{}}";
    String text =
        document
            + " ".repeat(LineReader.LONGEST - document.length())
            + "\n"
            + document.replace('1', '2')
            + " ".repeat(LineReader.LONGEST - document.length() + 1)
            + "\n"
            + document.replace('1', '3')
            + " ".repeat(200_000)
            + "\n";
    java.io.ByteArrayOutputStream out = new java.io.ByteArrayOutputStream();
    new BenchLoop(limnostat.scan.TestSettings.pool()).run(in(text), out);
    List<String> answers = out.toString(StandardCharsets.UTF_8).lines().toList();
    assertTrue(answers.get(0).startsWith("{\"t\":1,"), answers.get(0));
    assertTrue(answers.get(1).contains("longer than 65536 bytes"), answers.get(1));
    assertTrue(answers.get(2).contains("longer than 65536 bytes"), answers.get(2));
    assertTrue(answers.get(2).contains("\"line\":3"), answers.get(2));
  }

  @Test
  void aLineOfTheBuffersLength() throws IOException {
    for (int length = 16 * 1024 - 1; length <= 16 * 1024 + 1; length++) {
      LineReader reader = new LineReader(in("x".repeat(length) + "\nb"));
      assertEquals(length, reader.next().length);
      assertArrayEquals(new byte[] {'b'}, reader.next());
    }
  }
}
