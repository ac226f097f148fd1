package limnostat.scan;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;

/**
 * Finds what a test cannot have read: values outside what kits read in pools, or values that
 * contradict each other.
 */
final class TestPlausibility {
  /** Error of a kit: this much, or this share, whichever is more (common practice, no source). */
  private static final double KIT_MG_L = 0.2;

  private static final double KIT_FRACTION = 0.1;

  private TestPlausibility() {}

  /** Why the test is refused, as a clause for people; empty: it may be believed. */
  static Optional<String> refusal(WaterTest test) {
    for (Tested quantity : Tested.values()) {
      Optional<String> outside = outside(quantity, test.of(quantity));
      if (outside.isPresent()) {
        return outside;
      }
    }
    return contradiction(test);
  }

  private static Optional<String> outside(Tested quantity, OptionalDouble value) {
    if (value.isEmpty()
        || (value.getAsDouble() >= quantity.min() && value.getAsDouble() <= quantity.max())) {
      return Optional.empty();
    }
    String unit = quantity.unit().isEmpty() ? "" : " " + quantity.unit();
    return Optional.of(
        quantity.key()
            + " "
            + value.getAsDouble()
            + unit
            + " is outside "
            + quantity.min()
            + " to "
            + quantity.max()
            + unit
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
