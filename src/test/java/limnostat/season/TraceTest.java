package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class TraceTest {
  private static final SeasonSettings SEASON =
      new SeasonSettings(
          2, 2, 9, Spread.STRANGE, Family.ALL, List.of(Player.PROGRAM), 0, false, Set.of(), 60);

  /**
   * A row for each pool and hour, each with every column, the fed grams adding up to the score's.
   */
  @Test
  void eachPoolAndHourHasARow() {
    StringBuilder csv = new StringBuilder();
    SeasonReport report = new Season(SEASON).run(pool -> {}, csv);
    List<String[]> rows = csv.toString().lines().map(line -> line.split(",", -1)).toList();
    List<String> head = Arrays.asList(rows.get(0));
    assertEquals(1 + 2 * 48, rows.size());
    rows.forEach(row -> assertEquals(head.size(), row.length, () -> String.join(",", row)));
    for (int pool = 1; pool <= 2; pool++) {
      double fedG = 0;
      for (int hour = 0; hour < 48; hour++) {
        String[] row = rows.get(1 + (pool - 1) * 48 + hour);
        assertEquals(String.valueOf(pool), row[0]);
        assertEquals((hour + 1) % 24, Integer.parseInt(row[head.indexOf("hour")]));
        fedG += Double.parseDouble(row[head.indexOf("fed_g")]);
        double free = Double.parseDouble(row[head.indexOf("true_free_chlorine_mg_l")]);
        assertTrue(free >= 0 && free < 20, () -> String.join(",", row));
      }
      Score score = report.pools().get(pool - 1).contestants().get("limnostat");
      assertEquals(score.fedG(), fedG, 3);
    }
    long tests = rows.stream().skip(1).filter(r -> !r[head.indexOf("test_mg_l")].isEmpty()).count();
    assertTrue(tests >= 2, "tests " + tests);
  }

  @Test
  void poolsAreWrittenInOrderWhicheverEndsFirst() {
    StringBuilder csv = new StringBuilder();
    Trace trace = new Trace(csv);
    trace.add(3, "c\n");
    trace.add(1, "a\n");
    trace.add(2, "b\n");
    assertEquals(Trace.HEAD + "a\nb\nc\n", csv.toString());
  }

  /** A disk that is full ends the season with an error, not with half a file. */
  @Test
  void aTraceThatCannotBeWrittenIsAnError() {
    Appendable full =
        new java.io.Writer() {
          @Override
          public void write(char[] text, int from, int length) throws IOException {
            throw new IOException("no space left");
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    UncheckedIOException error =
        assertThrows(UncheckedIOException.class, () -> new Trace(full).add(1, "a\n"));
    assertTrue(error.getMessage().contains("no space left"), error::getMessage);
  }
}
