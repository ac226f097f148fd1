package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AlkalinityTest {
  /** Rows [computed]; a published table [checked, secondary] within 0.015. */
  @ParameterizedTest
  @CsvSource({
    "7.0, 0.220, 0.23",
    "7.2, 0.262, 0.27",
    "7.4, 0.298, 0.31",
    "7.6, 0.326, 0.33",
    "7.8, 0.346, 0.35",
    "8.0, 0.360, 0.36"
  })
  void cyanurateShare(double ph, double computed, double published) {
    assertEquals(computed, Alkalinity.cyanurateShare(ph), 1e-3);
    assertEquals(published, Alkalinity.cyanurateShare(ph), 0.015);
  }

  /** Published example [checked, secondary] with the factor 0.33 rounded. */
  @ParameterizedTest
  @CsvSource("100, 90, 7.6, 70.3")
  void carbonate(double total, double cyanuricAcid, double ph, double carbonate) {
    assertEquals(carbonate, Alkalinity.carbonateMgL(total, cyanuricAcid, ph), 0.5);
  }
}
