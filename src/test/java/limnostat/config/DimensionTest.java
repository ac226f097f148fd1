package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class DimensionTest {
  /**
   * Exact factors: water-chemistry 0 [memory] exact; kg and lb a day are 1000/24 and 453.59237/24
   * g/h, m³/h is 1000/60 L/min.
   */
  @ParameterizedTest
  @CsvSource({
    "VOLUME, 10000, gal, 37.85411784",
    "VOLUME, 50000, L, 50",
    "CONCENTRATION, 3, ppm, 3",
    "POTENTIAL, 0.8, V, 800",
    "TEMPERATURE, 32, degF, 0",
    "TEMPERATURE, 104, degF, 40",
    "TEMPERATURE, -40, degF, -40",
    "TEMPERATURE_STEP, 1.8, degF, 1",
    "FLOW, 10, gal/min, 37.85411784",
    "FLOW, 6, m3/h, 100",
    "MASS, 1, lb, 453.59237",
    "MASS, 16, oz, 453.59237",
    "MASS, 2, kg, 2000",
    "LIQUID, 128, fl_oz, 3785.411784",
    "LIQUID, 1, gal, 3785.411784",
    "LIQUID, 1.5, L, 1500",
    "MASS_RATE, 24, kg/day, 1000",
    "MASS_RATE, 24, lb/day, 453.59237",
    "LIQUID_RATE, 1.5, L/h, 1500",
    "LIQUID_RATE, 2, mL/min, 120",
    "LIQUID_RATE, 24, gal/day, 3785.411784",
    "CURRENT, 500, mA, 0.5",
    "TIME, 2, min, 120",
    "TIME, 2, h, 7200",
    "TIME, 2, d, 172800",
  })
  void convertsByExactFactors(Dimension dimension, double written, String unit, double program) {
    double converted = dimension.unit(unit).orElseThrow().toProgram(written);
    assertEquals(program, converted, Math.abs(program) * 1e-15);
  }

  @ParameterizedTest
  @EnumSource
  void showsWhatWasRead(Dimension dimension) {
    for (Unit unit : dimension.units()) {
      assertEquals(12.5, unit.fromProgram(unit.toProgram(12.5)), 1e-12, unit.name());
    }
    assertEquals(7, dimension.units().get(0).toProgram(7), "the first is the program's own");
  }
}
