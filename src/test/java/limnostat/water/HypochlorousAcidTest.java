package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.aggregator.ArgumentsAccessor;
import org.junit.jupiter.params.provider.CsvSource;

class HypochlorousAcidTest {
  /** Computed from Morris (1966); the published value at 25 °C is 7.53–7.54 (secondary source). */
  @ParameterizedTest
  @CsvSource({
    "0, 7.8251",
    "5, 7.7541",
    "10, 7.6902",
    "15, 7.6328",
    "20, 7.5818",
    "25, 7.5366",
    "30, 7.4972",
    "35, 7.4631",
    "40, 7.4342"
  })
  void acidConstant(double temperatureC, double pKa) {
    assertEquals(pKa, HypochlorousAcid.pKa(temperatureC), 2e-4);
  }

  /**
   * Percent HOCl at ionic strength 0 and 0, 5, 10 … 40 °C, computed from the same; tolerance 0.1
   * point.
   */
  @ParameterizedTest
  @CsvSource({
    "6.5, 95.5, 94.7, 93.9, 93.1, 92.3, 91.6, 90.9, 90.2, 89.6",
    "7.0, 87.0, 85.0, 83.1, 81.1, 79.2, 77.5, 75.9, 74.4, 73.1",
    "7.2, 80.8, 78.2, 75.6, 73.0, 70.7, 68.5, 66.5, 64.7, 63.2",
    "7.4, 72.7, 69.3, 66.1, 63.1, 60.3, 57.8, 55.6, 53.6, 52.0",
    "7.5, 67.9, 64.2, 60.8, 57.6, 54.7, 52.1, 49.8, 47.9, 46.2",
    "7.6, 62.7, 58.8, 55.2, 51.9, 49.0, 46.4, 44.1, 42.2, 40.6",
    "7.8, 51.4, 47.4, 43.7, 40.5, 37.7, 35.3, 33.2, 31.5, 30.1",
    "8.0, 40.1, 36.2, 32.9, 30.0, 27.6, 25.6, 23.9, 22.5, 21.4",
    "8.5, 17.4, 15.2, 13.4, 12.0, 10.8, 9.8, 9.0, 8.4, 7.9"
  })
  void fraction(ArgumentsAccessor row) {
    for (int i = 1; i <= 9; i++) {
      double percent = 100 * HypochlorousAcid.fraction(row.getDouble(0), 5.0 * (i - 1));
      assertEquals(row.getDouble(i), percent, 0.1, 5 * (i - 1) + " °C");
    }
  }

  /**
   * Handbook tables recalled (White's Handbook, older EPA tables; from memory) at 20 °C: ±3 points.
   */
  @ParameterizedTest
  @CsvSource({"6, 96.5", "7, 77", "8, 25.5"})
  void agreesWithHandbooks(double ph, double percent) {
    assertEquals(percent, 100 * HypochlorousAcid.fraction(ph, 20), 3);
  }
}
