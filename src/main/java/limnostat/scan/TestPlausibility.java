package limnostat.scan;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import limnostat.estimate.WaterTest;

/**
 * Finds what a test cannot have read: values outside what kits read in pools, or values that
 * contradict each other.
 */
final class TestPlausibility {
  /** Ranges of what a test kit can read in a pool (engineering judgement, wide). */
  private record Range(
      String field, Function<WaterTest, OptionalDouble> of, double max, String unit) {}

  private static final Range[] RANGES = {
    new Range("free_chlorine_mg_l", WaterTest::freeChlorineMgL, 50, " mg/L"),
    new Range("combined_chlorine_mg_l", WaterTest::combinedChlorineMgL, 50, " mg/L"),
    new Range("total_chlorine_mg_l", WaterTest::totalChlorineMgL, 100, " mg/L"),
    new Range("total_alkalinity_mg_l", WaterTest::totalAlkalinityMgL, 1000, " mg/L"),
    new Range("cyanuric_acid_mg_l", WaterTest::cyanuricAcidMgL, 500, " mg/L"),
    new Range("calcium_hardness_mg_l", WaterTest::calciumHardnessMgL, 3000, " mg/L"),
    new Range("salt_mg_l", WaterTest::saltMgL, 50_000, " mg/L")
  };

  private static final double PH_MIN = 5;
  private static final double PH_MAX = 10;

  /** Error of a kit: this much, or this share, whichever is more (common practice, no source). */
  private static final double KIT_MG_L = 0.2;

  private static final double KIT_FRACTION = 0.1;

  private TestPlausibility() {}

  /** Why the test is refused, as a clause for people; empty: it may be believed. */
  static Optional<String> refusal(WaterTest test) {
    for (Range range : RANGES) {
      Optional<String> outside = outside(range, range.of.apply(test), 0);
      if (outside.isPresent()) {
        return outside;
      }
    }
    Optional<String> ph = outside(new Range("ph", WaterTest::ph, PH_MAX, ""), test.ph(), PH_MIN);
    return ph.isPresent() ? ph : contradiction(test);
  }

  private static Optional<String> outside(Range range, OptionalDouble value, double min) {
    if (value.isEmpty() || (value.getAsDouble() >= min && value.getAsDouble() <= range.max)) {
      return Optional.empty();
    }
    return Optional.of(
        range.field
            + " "
            + value.getAsDouble()
            + range.unit
            + " is outside "
            + min
            + " to "
            + range.max
            + range.unit
            + ", what a test can read");
  }

  /** Checks that free + combined = total, within the error of a kit. */
  private static Optional<String> contradiction(WaterTest test) {
    if (test.totalChlorineMgL().isEmpty()) {
      return Optional.empty();
    }
    double total = test.totalChlorineMgL().getAsDouble();
    double error = Math.max(KIT_MG_L, KIT_FRACTION * total);
    double free = test.freeChlorineMgL().orElse(0);
    double combined = test.combinedChlorineMgL().orElse(0);
    if (free > total + error) {
      return Optional.of(above("free_chlorine_mg_l", free, total));
    }
    if (combined > total + error) {
      return Optional.of(above("combined_chlorine_mg_l", combined, total));
    }
    boolean all = test.freeChlorineMgL().isPresent() && test.combinedChlorineMgL().isPresent();
    return all && Math.abs(free + combined - total) > error
        ? Optional.of(
            String.format(
                Locale.ROOT,
                "free_chlorine_mg_l %s and combined_chlorine_mg_l %s do not add up to"
                    + " total_chlorine_mg_l %s; test again, with fresh reagents",
                free,
                combined,
                total))
        : Optional.empty();
  }

  private static String above(String field, double part, double total) {
    return field
        + " "
        + part
        + " is above total_chlorine_mg_l "
        + total
        + ", of which it is a part; test again, with fresh reagents";
  }
}
