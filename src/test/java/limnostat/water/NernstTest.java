package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NernstTest {
  /** water-chemistry 4 [computed], ±0.01 there; the table has three decimals. */
  @ParameterizedTest
  @CsvSource({"0, 54.199", "5, 55.191", "20, 58.167", "25, 59.159", "30, 60.151", "40, 62.136"})
  void followsTheTable(double temperatureC, double mvPerPh) {
    assertEquals(mvPerPh, Nernst.slopeMvPerPh(temperatureC), 0.0006);
  }
}
