package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Files made at random, option by option, each with any value that TOML has: accepted within the
 * bounds, or refused with an error that names an option, its place and no more than a line. With
 * {@link MutationTest}, the bench lines and the commands more than 100,000 documents.
 */
@Tag("slow")
class GeneratedFilesTest {
  private static final long SEED = 20261102;
  private static final int CASES = 6000;
  private static final List<String> UNITS =
      List.of(
          "m3", "L", "gal", "mg/L", "mV", "V", "degC", "degF", "L/min", "g", "kg", "lb", "mL",
          "g/h", "L/h", "mL/h", "s", "min", "h", "d", "deg", "", "µg", "M3");
  private static final List<String> ODD =
      List.of(
          "true",
          "false",
          "nan",
          "-inf",
          "9223372036854775807",
          "0x48",
          "1e308",
          "-0.0",
          "[]",
          "[[[[[[[[]]]]]]]]",
          "{}",
          "{ a = 1 }",
          "2026-07-01",
          "2026-07-01T00:00:00Z",
          "\"\"",
          "\"\\u0000\"",
          "\"é\uD83C\uDF0A\"",
          "\"relay\"",
          "\"board\"",
          "\"trichlor\"",
          "\"../../x\"",
          "[\"09:00-17:00\", \"23:00-01:00\"]",
          "[\"24:00-25:00\"]",
          "[\"cell_a\", \"tank_low\"]",
          "\"" + "x".repeat(1000) + "\"",
          "[" + "1,".repeat(200) + "1]");

  /** What the shipped file has, by path. */
  private static final Map<String, String> SHIPPED = shipped();

  private static Map<String, String> shipped() {
    Map<String, String> values = new LinkedHashMap<>();
    String table = "";
    for (String line : Sample.shippedBoard().lines().toList()) {
      if (line.startsWith("[")) {
        table = line.substring(1, line.length() - 1);
      } else if (!line.startsWith("#") && line.contains(" = ")) {
        String[] parts = line.split(" = ", 2);
        values.put(table + "." + parts[0], parts[1]);
      }
    }
    return values;
  }

  @TempDir Path folder;

  private final Random random = new Random(SEED);

  @Test
  void everyFileIsWithinTheBoundsOrRefusedByName() {
    int accepted = 0;
    Set<String> named = new TreeSet<>();
    for (int i = 0; i < CASES; i++) {
      String label = "seed " + SEED + ", case " + i;
      String text = file();
      try {
        MutationTest.assertWithinBounds(Sample.load(folder, text).configuration(), label);
        accepted++;
      } catch (ConfigurationException e) {
        assertFalse(e.errors().isEmpty(), label);
        for (ConfigurationError error : e.errors()) {
          assertFalse(error.key().isEmpty(), () -> label + " names nothing: " + error.render());
          assertTrue(error.line() >= 1 && error.column() >= 1, () -> label + ": " + error);
          String line = error.render();
          assertTrue(line.length() < 700, () -> label + " tells too much: " + line);
          assertEquals(1, line.lines().count(), label);
          named.add(error.key());
        }
      } catch (RuntimeException | StackOverflowError e) {
        throw new AssertionError(label + ": " + e + " of\n" + text, e);
      }
    }
    assertTrue(accepted > CASES / 20 && accepted < CASES / 2, accepted + " were accepted");
    long options = Options.ALL.stream().filter(option -> named.contains(option.path())).count();
    assertTrue(options > Options.ALL.size() * 9 / 10, options + " of the options were refused");
  }

  private String file() {
    Map<String, Map<String, String>> tables = base();
    for (int n = 1 + random.nextInt(3); n > 0; n--) {
      Option<?> option = Options.ALL.get(random.nextInt(Options.ALL.size()));
      Map<String, String> table =
          tables.computeIfAbsent(option.table(), name -> new LinkedHashMap<>());
      switch (random.nextInt(12)) {
        case 0 -> table.remove(option.key());
        case 1 -> table.put(option.key() + "x", "1");
        case 2, 3, 4, 5 -> {
          String shipped = SHIPPED.get(option.path());
          if (shipped != null) {
            table.put(option.key(), shipped);
          }
        }
        default -> table.put(option.key(), value());
      }
    }
    StringBuilder text = new StringBuilder();
    tables.forEach(
        (name, table) -> {
          text.append('[').append(name).append("]\n");
          table.forEach((key, value) -> text.append(key + " = " + value + "\n"));
        });
    return text.toString();
  }

  private Map<String, Map<String, String>> base() {
    Map<String, Map<String, String>> tables = new LinkedHashMap<>();
    String table = "";
    String text = random.nextBoolean() ? Sample.MINIMAL : Sample.MINIMAL_BOARD;
    for (String line : text.lines().toList()) {
      if (line.startsWith("[")) {
        table = line.substring(1, line.length() - 1);
        tables.put(table, new LinkedHashMap<>());
      } else {
        String[] parts = line.split(" = ", 2);
        tables.get(table).put(parts[0], parts[1]);
      }
    }
    return tables;
  }

  private String value() {
    double magnitude = Math.pow(10, random.nextInt(9) - 3);
    String number =
        String.format(
            Locale.ROOT,
            "%s%.3f",
            random.nextInt(6) == 0 ? "-" : "",
            random.nextDouble() * magnitude);
    return switch (random.nextInt(8)) {
      case 0, 1, 2 -> "\"" + number + " " + UNITS.get(random.nextInt(UNITS.size())) + "\"";
      case 3 -> number;
      case 4 -> Integer.toString(random.nextInt(600) - 20);
      case 5 -> "\"" + number + "\"";
      default -> ODD.get(random.nextInt(ODD.size()));
    };
  }
}
