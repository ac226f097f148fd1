package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TestPlausibilityTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  private static OptionalDouble value(Double value) {
    return value == null ? NONE : OptionalDouble.of(value);
  }

  /** A kit errs by 0.2 mg/L or a tenth of the total, whichever is more. */
  @ParameterizedTest
  @CsvSource({
    "3, , 3, ''",
    "3.2, , 3, ''",
    "3.31, , 3, free_chlorine_mg_l",
    "1.2, , 1, ''",
    "1.21, , 1, free_chlorine_mg_l",
    "11, , 10, ''",
    "11.1, , 10, free_chlorine_mg_l",
    ", 1.2, 1, ''",
    ", 1.21, 1, combined_chlorine_mg_l",
    "2, 0.5, 2.5, ''",
    "2, 0.5, 2.3, ''",
    "2, 0.5, 2.2, add up",
    "2, 0.5, 3, add up",
    "2, 0.5, , ''",
    "2, , , ''",
    ", , 2, ''"
  })
  void freeAndCombinedAreTotal(Double free, Double combined, Double total, String reason) {
    Optional<String> refusal =
        TestPlausibility.refusal(
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, value(free))
                .with(Tested.COMBINED_CHLORINE, value(combined))
                .with(Tested.TOTAL_CHLORINE, value(total)));
    assertEquals(!reason.isEmpty(), refusal.isPresent(), refusal::toString);
    assertTrue(refusal.orElse(reason).contains(reason), refusal::toString);
    assertTrue(refusal.isEmpty() || refusal.get().contains("test again"), "says the mend");
  }

  @Test
  void whatNoKitReadsIsRefusedWithItsRange() {
    record Bad(String field, WaterTest test) {}
    OptionalDouble low = OptionalDouble.of(-0.1);
    OptionalDouble high = OptionalDouble.of(1e6);
    for (OptionalDouble bad : List.of(low, high, OptionalDouble.of(Double.NaN))) {
      for (Bad b :
          List.of(
              new Bad("free_chlorine_mg_l", test(bad, NONE, NONE, NONE, NONE, NONE, NONE, NONE)),
              new Bad(
                  "combined_chlorine_mg_l", test(NONE, bad, NONE, NONE, NONE, NONE, NONE, NONE)),
              new Bad("ph", test(NONE, NONE, bad, NONE, NONE, NONE, NONE, NONE)),
              new Bad("total_alkalinity_mg_l", test(NONE, NONE, NONE, bad, NONE, NONE, NONE, NONE)),
              new Bad("cyanuric_acid_mg_l", test(NONE, NONE, NONE, NONE, bad, NONE, NONE, NONE)),
              new Bad("calcium_hardness_mg_l", test(NONE, NONE, NONE, NONE, NONE, bad, NONE, NONE)),
              new Bad("salt_mg_l", test(NONE, NONE, NONE, NONE, NONE, NONE, bad, NONE)),
              new Bad(
                  "total_chlorine_mg_l", test(NONE, NONE, NONE, NONE, NONE, NONE, NONE, bad)))) {
        Optional<String> refusal = TestPlausibility.refusal(b.test);
        assertTrue(refusal.orElse("").startsWith(b.field + " "), b + ": " + refusal);
        assertTrue(refusal.get().contains("is outside"), refusal::toString);
      }
    }
    assertFalse(
        TestPlausibility.refusal(
                test(NONE, NONE, OptionalDouble.of(7), NONE, NONE, NONE, NONE, NONE))
            .isPresent());
  }

  private static WaterTest test(
      OptionalDouble free,
      OptionalDouble combined,
      OptionalDouble ph,
      OptionalDouble alkalinity,
      OptionalDouble cyanuricAcid,
      OptionalDouble hardness,
      OptionalDouble salt,
      OptionalDouble total) {
    return WaterTest.EMPTY
        .with(Tested.FREE_CHLORINE, free)
        .with(Tested.COMBINED_CHLORINE, combined)
        .with(Tested.PH, ph)
        .with(Tested.TOTAL_ALKALINITY, alkalinity)
        .with(Tested.CYANURIC_ACID, cyanuricAcid)
        .with(Tested.CALCIUM_HARDNESS, hardness)
        .with(Tested.SALT, salt)
        .with(Tested.TOTAL_CHLORINE, total);
  }
}
