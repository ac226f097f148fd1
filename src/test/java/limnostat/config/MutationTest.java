package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import limnostat.account.DoseCaps;
import limnostat.safety.HardBounds;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Slips of the hand in the shipped file: none ends in anything but a list of faults or a
 * configuration within the program's hard bounds.
 */
@Tag("slow")
class MutationTest {
  private static final long SEED = 20261101;
  private static final int CASES = 2000;
  private static final Pattern NUMBER = Pattern.compile("(?m)^[a-z_]+ = \"?(-?[0-9.]+)");
  private static final String[] NUMBERS = {
    "0", "-1", "1", "2", "5", "9.5", "21", "48", "61", "100", "250", "950", "1001", "1e6", "1e999"
  };
  private static final String CHARACTERS =
      "09.-+eE_ \"'[]{}=,#\\\n\r\t\u0000\u00b3\u20ac\ud83c\udf0a" + "abmLgVCF/";

  @TempDir Path folder;

  @Test
  void neverPassesTheHardBounds() {
    Random random = new Random(SEED);
    int accepted = 0;
    for (int i = 0; i < CASES; i++) {
      // without its comments, where a slip does nothing
      String text =
          (i % 2 == 0 ? Sample.shipped() : Sample.shippedBoard()).replaceAll("(?m)^#.*\n", "");
      for (int edits = 1 + random.nextInt(3); edits > 0; edits--) {
        text = mutate(text, random);
      }
      String label = "seed " + SEED + ", case " + i;
      try {
        assertWithinBounds(Sample.load(folder, text).configuration(), label);
        accepted++;
      } catch (ConfigurationException e) {
        assertTrue(!e.errors().isEmpty(), label);
        assertEquals(
            e.errors().stream().sorted(ConfigurationError.BY_POSITION).toList(), e.errors(), label);
        assertEquals(e.errors().size(), e.getMessage().lines().count(), label);
      } catch (RuntimeException | StackOverflowError e) {
        throw new AssertionError(label + ": " + e, e);
      }
    }
    assertTrue(accepted > CASES / 20 && accepted < CASES / 2, accepted + " were accepted");
  }

  private static String mutate(String text, Random random) {
    int at = random.nextInt(text.length());
    return switch (random.nextInt(6)) {
      case 0 -> text.substring(0, at) + text.substring(at + 1);
      case 1 -> text.substring(0, at) + text.charAt(at) + text.substring(at);
      case 2 ->
          text.substring(0, at)
              + CHARACTERS.charAt(random.nextInt(CHARACTERS.length()))
              + text.substring(at + 1);
      case 3 -> line(text, random);
      default -> number(text, random);
    };
  }

  /** One line out, or twice. */
  private static String line(String text, Random random) {
    List<String> lines = new ArrayList<>(text.lines().toList());
    int at = random.nextInt(lines.size());
    if (random.nextBoolean()) {
      lines.remove(at);
    } else {
      lines.add(at, lines.get(at));
    }
    return String.join("\n", lines) + "\n";
  }

  /** Another number for one of the values. */
  private static String number(String text, Random random) {
    List<MatchResult> numbers = NUMBER.matcher(text).results().toList();
    if (numbers.isEmpty()) {
      return text;
    }
    MatchResult number = numbers.get(random.nextInt(numbers.size()));
    return text.substring(0, number.start(1))
        + NUMBERS[random.nextInt(NUMBERS.length)]
        + text.substring(number.end(1));
  }

  static void assertWithinBounds(Configuration configuration, String label) {
    ScanSettings scan = configuration.scan();
    SafetyLimits limits = scan.limits();
    assertTrue(limits.orpHighMv() <= HardBounds.ORP_HIGH_MV, label);
    assertTrue(limits.freeChlorineHighMgL() <= HardBounds.FREE_CHLORINE_HIGH_MG_L, label);
    assertTrue(limits.superchlorinationMaxMgL() <= HardBounds.SUPERCHLORINATION_MG_L, label);
    assertTrue(limits.phDosingMin() >= HardBounds.PH_DOSING_MIN, label);
    assertTrue(limits.phDosingMax() <= HardBounds.PH_DOSING_MAX, label);
    assertTrue(limits.phDosingMin() < limits.phDosingMax(), label);
    assertTrue(limits.waterMinC() < limits.waterMaxC(), label);
    assertTrue(limits.flowProvingS() >= HardBounds.FLOW_PROVING_MIN_S, label);
    assertTrue(limits.separationS() >= HardBounds.SEPARATION_MIN_S, label);
    assertTrue(limits.blindFeedMgL() >= 0, label);
    assertTrue(limits.blindFeedMgL() <= HardBounds.BLIND_FEED_MG_L, label);
    assertTrue(
        configuration.periodS() > 0 && configuration.periodS() <= HardBounds.SCAN_PERIOD_MAX_S,
        label);
    assertTrue(scan.control().freeChlorineTargetMgL() <= HardBounds.TARGET_MG_L, label);
    assertTrue(scan.control().freeChlorineTargetMgL() < limits.freeChlorineHighMgL(), label);
    double volumeM3 = scan.estimate().volumeM3();
    DoseCaps chlorine = scan.chlorine().caps();
    assertTrue(chlorine.hourCap() <= HardBounds.CHLORINE_HOUR_MG_L * volumeM3, label);
    assertTrue(chlorine.dayCap() <= HardBounds.CHLORINE_DAY_MG_L * volumeM3, label);
    assertCaps(chlorine, label);
    if (scan.acid().fitted()) {
      assertTrue(scan.acid().caps().dayCap() <= HardBounds.ACID_DAY_ML_M3 * volumeM3, label);
      assertCaps(scan.acid().caps(), label);
    }
  }

  private static void assertCaps(DoseCaps caps, String label) {
    assertTrue(caps.ratePerH() > 0, label);
    assertTrue(caps.blockAmount() > 0 && caps.blockAmount() <= caps.hourCap(), label);
    assertTrue(caps.hourCap() > 0 && caps.hourCap() <= caps.dayCap(), label);
  }
}
