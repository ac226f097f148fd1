package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Plummer and Busenberg (1982) [checked as an abstract]; pKw [memory]. Rows [computed] to 0.001.
 */
class CarbonatesTest {
  @ParameterizedTest
  @CsvSource({
    "10, 1.2694, 6.4633, 10.4879, 8.4105, 14.5332",
    "20, 1.4069, 6.3819, 10.3756, 8.4533, 14.1652",
    "25, 1.4679, 6.3519, 10.3289, 8.4798, 13.9947",
    "30, 1.5244, 6.3281, 10.2879, 8.5098, 13.8327",
    "40, 1.6249, 6.2974, 10.2217, 8.5797, 13.5323"
  })
  void constants(double t, double henry, double k1, double k2, double calcite, double water) {
    assertEquals(henry, Carbonates.pkHenry(t), 1e-3);
    assertEquals(k1, Carbonates.pk1(t), 1e-3);
    assertEquals(k2, Carbonates.pk2(t), 1e-3);
    assertEquals(calcite, Carbonates.pkCalcite(t), 1e-3);
    assertEquals(water, Carbonates.pkWater(t), 1e-3);
  }

  @ParameterizedTest
  @CsvSource({"-0.1", "40.1", "NaN"})
  void refusesOtherTemperatures(double t) {
    assertThrows(OutsideValidityException.class, () -> Carbonates.pk1(t));
  }
}
