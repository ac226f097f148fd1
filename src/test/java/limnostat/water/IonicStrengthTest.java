package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Davies with the permittivity of Malmberg and Maryott, both [memory]; rows [computed]. */
class IonicStrengthTest {
  @ParameterizedTest
  @CsvSource({"0, 0.4918", "20, 0.5071", "25, 0.5115", "30, 0.5162", "40, 0.5263"})
  void debyeHueckelA(double temperatureC, double a) {
    assertEquals(a, IonicStrength.debyeHueckelA(temperatureC), 1e-4);
  }

  /** Texts quote 0.509 at 25 °C [memory]: ±0.003. */
  @ParameterizedTest
  @CsvSource("25, 0.509")
  void agreesWithTexts(double temperatureC, double a) {
    assertEquals(a, IonicStrength.debyeHueckelA(temperatureC), 3e-3);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0, 0, 7.537, 68.5, 52.1, 35.3",
    "500, 0.0086, -0.042, 7.495, 66.3, 49.7, 33.1",
    "1000, 0.0171, -0.057, 7.480, 65.6, 48.9, 32.4",
    "3000, 0.0513, -0.087, 7.450, 64.0, 47.1, 30.9",
    "4000, 0.0684, -0.096, 7.441, 63.5, 46.6, 30.4",
    "5000, 0.0856, -0.103, 7.434, 63.2, 46.2, 30.1",
    "6000, 0.1027, -0.108, 7.428, 62.8, 45.9, 29.8"
  })
  void saltMovesHypochlorousAcid(
      double saltMgL,
      double ionicStrength,
      double log,
      double pKa,
      double at72,
      double at75,
      double at78) {
    double i = IonicStrength.ofSaltMolL(saltMgL);
    assertEquals(ionicStrength, i, 1e-4);
    assertEquals(log, IonicStrength.logActivity(i, 25), 6e-4);
    assertEquals(pKa, HypochlorousAcid.pKa(25, i), 1e-3);
    assertEquals(at72, 100 * HypochlorousAcid.fraction(7.2, 25, i), 0.2);
    assertEquals(at75, 100 * HypochlorousAcid.fraction(7.5, 25, i), 0.2);
    assertEquals(at78, 100 * HypochlorousAcid.fraction(7.8, 25, i), 0.2);
  }

  /** I = 2.5e-5 TDS [memory]. */
  @ParameterizedTest
  @CsvSource({"320, 0.008", "1000, 0.025"})
  void ofFreshWater(double dissolvedSolidsMgL, double molL) {
    assertEquals(molL, IonicStrength.ofDissolvedSolidsMolL(dissolvedSolidsMgL), 1e-9);
  }
}
