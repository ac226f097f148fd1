package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import limnostat.actuate.Output;
import limnostat.config.EffectiveOption.Origin;
import limnostat.config.FieldSettings.Board;
import limnostat.measure.Role;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The file that is shipped is the reference of the options: it must say what the code does. */
class ShippedFileTest {
  private static final Pattern TABLE = Pattern.compile("#? *\\[([a-z0-9_.]+)]");
  private static final Pattern KEY = Pattern.compile("#? *([a-z0-9_]+) = .*");

  @TempDir Path folder;

  @Test
  void loadsAsItIs() throws ConfigurationException {
    Configuration configuration = Configuration.load(Sample.SHIPPED);
    assertInstanceOf(FieldSettings.Simulated.class, configuration.field());
    assertTrue(configuration.scan().acid().fitted());
    assertEquals(
        Sample.SHIPPED.toAbsolutePath().resolveSibling("limnostat.db"),
        configuration.ledger().file());
  }

  /** The comment above each key: its doc, then form, unit, range and default, word for word. */
  @Test
  void explainsEveryOption() {
    Map<String, String> comments = new HashMap<>();
    String table = "";
    StringBuilder comment = new StringBuilder();
    for (String line : Sample.shipped().lines().toList()) {
      Matcher tableLine = TABLE.matcher(line);
      Matcher keyLine = KEY.matcher(line);
      if (tableLine.matches()) {
        table = tableLine.group(1);
        comment.setLength(0);
      } else if (keyLine.matches()) {
        comments.put(table + "." + keyLine.group(1), comment.toString().strip());
        comment.setLength(0);
      } else if (line.startsWith("# ") || line.startsWith("#   # ")) {
        comment.append(' ').append(line.replaceFirst("^[# ]+", ""));
      }
    }
    Set<String> documented = new HashSet<>(comments.values());
    for (Option<?> option : Options.ALL) {
      String expected = option.doc() + " (" + option.describe() + ")";
      if (option.table().startsWith("board.")) {
        // Devices of one kind are explained once.
        assertTrue(documented.contains(expected), option.path() + ": " + expected);
      } else {
        assertEquals(expected, comments.get(option.path()), option.path());
      }
    }
  }

  @Test
  void listsTheUnits() {
    for (Dimension dimension : Dimension.values()) {
      assertTrue(Sample.shipped().contains(": " + dimension.unitNames() + "\n"), dimension.name());
    }
  }

  @Test
  void showsTheDefaults() throws ConfigurationException {
    Map<String, EffectiveOption> shown = new HashMap<>();
    for (EffectiveOption option : Sample.load(folder, Sample.shippedBoard()).options()) {
      shown.put(option.path(), option);
    }
    Set<String> wiring = Set.of("board.analog.ph_mv.zero");
    int compared = 0;
    for (Option<?> option : Options.ALL) {
      EffectiveOption effective = shown.get(option.path());
      if (effective != null && option.whenAbsent().startsWith("default ")) {
        assertEquals(Origin.FILE, effective.origin(), option.path() + " is shown");
        if (!wiring.contains(option.path())) {
          assertEquals(option.whenAbsent(), "default " + effective.value(), option.path());
        }
        compared++;
      }
    }
    assertTrue(compared > 60, compared + " compared");
  }

  @Test
  void theWiringExampleLoads() throws ConfigurationException {
    Board board =
        assertInstanceOf(
            Board.class, Sample.load(folder, Sample.shippedBoard()).configuration().field());
    assertEquals(
        new FieldSettings.AdcInput(0x48, 1, 2048, 1024, 1), board.analog().get(Role.PH_MV));
    assertEquals(
        new FieldSettings.LineIn(17, true, FieldSettings.Pull.UP), board.contacts().get(Role.FLOW));
    assertEquals(Optional.of(new FieldSettings.OneWire("28-0123456789ab")), board.thermometer());
    assertEquals(
        Map.of(
            Output.CHLORINE, new FieldSettings.LineOut(23, false),
            Output.ACID, new FieldSettings.LineOut(24, false)),
        board.relays());
    assertEquals(Optional.of(new FieldSettings.LineOut(25, false)), board.pumpRelay());
    assertEquals(OptionalInt.of(22), board.heartbeatLine());
    assertEquals(Path.of("/sys"), board.sysfs());
  }

  /** Each option that is shown but not set can be set, with what it asks for beside it. */
  @Test
  void theUnsetOptionsLoad() {
    String text = Sample.shipped();
    for (String line :
        List.of(
            "#block = \"1 g\"", "#block = \"10 mL\"", "#port = 1883", "#user = \"limnostat\"")) {
      text = Sample.edit(text, line, line.substring(1));
    }
    text = Sample.edit(text, "#buffers", "buffers");
    text = Sample.edit(text, "#{", "{");
    text = Sample.edit(text, "#password_file", "password_file");
    text = Sample.edit(text, "#ca_file", "ca_file");
    text = Sample.edit(text, "tls = false", "tls = true");
    text = Sample.edit(text, "#minimum", "minimum");
    text = Sample.edit(text, "sensor = \"switch\"", "sensor = \"meter\"");
    text = Sample.edit(text, "#make_up_week", "make_up_week");
    text = Sample.edit(text, "#rate", "rate");
    text = Sample.edit(text, "#strength", "strength");
    text = Sample.edit(text, "\noutput", "\n#output");
    text = Sample.edit(text, "source = \"salt_cell\"", "source = \"liquid\"");
    assertEquals(List.of(), Sample.faults(folder, text));
  }
}
