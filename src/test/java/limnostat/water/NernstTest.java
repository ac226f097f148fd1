package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NernstTest {
  /**
   * Computed from S = 1000 R T ln 10/F with the SI 2019 constants; texts on pH print 59.16 at 25
   * °C.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 54.199",
    "5, 55.191",
    "10, 56.183",
    "15, 57.175",
    "20, 58.167",
    "25, 59.159",
    "30, 60.151",
    "35, 61.144",
    "40, 62.136"
  })
  void slopeFollowsTemperature(double temperatureC, double slopeMv) {
    assertEquals(slopeMv, Nernst.slopeMvPerPh(temperatureC), 0.01);
  }
}
