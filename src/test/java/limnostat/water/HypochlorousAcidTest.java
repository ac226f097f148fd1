package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
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

  /** Percent HOCl at ionic strength 0, computed from the same; tolerance 0.1 point. */
  @ParameterizedTest
  @CsvSource({
    "6.5, 0, 95.5", "6.5, 25, 91.6", "7.0, 10, 83.1", "7.2, 25, 68.5", "7.4, 30, 55.6",
    "7.5, 25, 52.1", "7.6, 15, 51.9", "7.8, 40, 30.1", "8.0, 20, 27.6", "8.5, 35, 8.4"
  })
  void fraction(double ph, double temperatureC, double percent) {
    assertEquals(percent, 100 * HypochlorousAcid.fraction(ph, temperatureC), 0.1);
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
