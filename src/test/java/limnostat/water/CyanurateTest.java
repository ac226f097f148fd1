package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CyanurateTest {
  /**
   * HOCl, mg/L as Cl2, at 25 °C and ionic strength 0, computed independently from the constants of
   * O'Brien, Morris and Butler (1974; from memory) and Morris's Ka; tolerance 1 % or 0.0001.
   */
  @ParameterizedTest
  @CsvSource({
    "7.2, 1, 0.6846, 0.0234, 0.0154, 0.0092, 0.0045",
    "7.2, 3, 2.0539, 0.0811, 0.0509, 0.0291, 0.0140",
    "7.2, 5, 3.4232, 0.1587, 0.0941, 0.0515, 0.0241",
    "7.2, 10, 6.8463, 0.5012, 0.2516, 0.1211, 0.0520",
    "7.5, 1, 0.5211, 0.0197, 0.0130, 0.0077, 0.0038",
    "7.5, 3, 1.5632, 0.0688, 0.0431, 0.0246, 0.0118",
    "7.5, 5, 2.6054, 0.1356, 0.0801, 0.0437, 0.0204",
    "7.5, 10, 5.2108, 0.4382, 0.2177, 0.1036, 0.0441",
    "7.8, 1, 0.3529, 0.0176, 0.0117, 0.0070, 0.0035",
    "7.8, 3, 1.0586, 0.0614, 0.0387, 0.0222, 0.0107",
    "7.8, 5, 1.7644, 0.1210, 0.0719, 0.0394, 0.0184",
    "7.8, 10, 3.5288, 0.3859, 0.1958, 0.0937, 0.0399"
  })
  void hypochlorousAcid(
      double ph, double fc, double at0, double at20, double at30, double at50, double at100) {
    double[][] rows = {{0, at0}, {20, at20}, {30, at30}, {50, at50}, {100, at100}};
    for (double[] row : rows) {
      double hocl = Cyanurate.hypochlorousAcidMgL(fc, row[0], ph, 25);
      assertEquals(row[1], hocl, Math.max(1e-4, 0.01 * row[1]), "stabiliser " + row[0]);
    }
  }

  @Test
  void noChlorineIsNoAcid() {
    assertEquals(0, Cyanurate.hypochlorousAcidMgL(0, 30, 7.5, 25));
  }

  @Test
  void risesWithChlorineAndFallsWithStabiliser() {
    Random random = new Random(1);
    for (int i = 0; i < 20_000; i++) {
      double fc = Math.pow(10, -3 + 5 * random.nextDouble());
      double cya = Math.pow(10, -2 + 4.7 * random.nextDouble());
      double ph = 5 + 5 * random.nextDouble();
      double t = 40 * random.nextDouble();
      String at = "fc " + fc + ", cya " + cya + ", ph " + ph + ", t " + t;
      double hocl = Cyanurate.hypochlorousAcidMgL(fc, cya, ph, t);
      double free = HypochlorousAcid.fraction(ph, t) * fc;
      assertTrue(hocl > 0 && hocl <= free * (1 + 1e-9), at);
      assertTrue(Cyanurate.hypochlorousAcidMgL(fc * 1.01, cya, ph, t) > hocl, at);
      assertTrue(Cyanurate.hypochlorousAcidMgL(fc, cya * 1.01, ph, t) < hocl, at);
    }
  }
}
