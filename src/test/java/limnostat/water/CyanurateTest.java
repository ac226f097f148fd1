package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
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

  /** Whole row, free chlorine 3, stabiliser 30, pH 7.5, 25 °C, mol/L [computed] ±1 %. */
  @ParameterizedTest
  @CsvSource("6.078e-7, 5.586e-7, 3.924e-5, 7.717e-7, 2.653e-7, 1.549e-4, 3.715e-5")
  void wholeRow(
      double hocl,
      double ocl,
      double hClCy,
      double cl2Cy,
      double h2ClCy,
      double h2Cy,
      double h3Cy) {
    ChlorineSpecies s = Cyanurate.species(3, 30, 7.5, 25, 0);
    assertEquals(hocl, s.hoclMolL(), 0.01 * hocl);
    assertEquals(ocl, s.oclMinusMolL(), 0.01 * ocl);
    assertEquals(hClCy, s.hClCyMinusMolL(), 0.01 * hClCy);
    assertEquals(cl2Cy, s.cl2CyMinusMolL(), 0.01 * cl2Cy);
    assertEquals(h2ClCy, s.h2ClCyMolL(), 0.01 * h2ClCy);
    assertEquals(h2Cy, s.h2CyMinusMolL(), 0.01 * h2Cy);
    assertEquals(h3Cy, s.h3CyMolL(), 0.01 * h3Cy);
    // shares of free chlorine: 92.7 % HClCy-, 3.6 % Cl2Cy-, 1.4 % HOCl
    double chlorine = s.chlorineMolL();
    assertEquals(0.927, s.hClCyMinusMolL() / chlorine, 1e-3);
    assertEquals(0.036, 2 * s.cl2CyMinusMolL() / chlorine, 1e-3);
    assertEquals(0.014, s.hoclMolL() / chlorine, 1e-3);
  }

  /**
   * Wahman and Alexander (2019) [checked, abstract]: 2 mg/L of dichlor at pH 7.0 leave 0.90 mg/L of
   * unbound chlorine at 25 °C. Another set of constants: within what this one is said to be good
   * for.
   */
  @Test
  void agreesWithTheOtherSetWithinItsUncertainty() {
    ChlorineSpecies s = Cyanurate.species(2, 2 * 0.910, 7.0, 25, 0);
    assertEquals(0.90, s.unboundMolL() * 70906, 0.90 * Cyanurate.UNCERTAINTY_FRACTION);
  }

  /** The cycles of the source's constants close to 0.01: 8.26, 10.95, 17.02 [computed]. */
  @Test
  void cyclesClose() {
    // reactions 7, 9 and 10 are not used by the code: they must come out of those that are
    ChlorineSpecies s = Cyanurate.species(5, 40, 7.5, 25, 0);
    double h = s.hoclMolL();
    assertEquals(4.51, pk(s.hClCyMinusMolL() * h / s.cl2CyMinusMolL()), 0.011);
    assertEquals(5.62, pk(s.h2CyMinusMolL() * h / s.hClCyMinusMolL()), 0.011);
    assertEquals(6.90, pk(s.hCy2MinusMolL() * h / s.clCy2MinusMolL()), 0.011);
  }

  private static double pk(double k) {
    return -Math.log10(k);
  }

  @Test
  void conservesAndStaysInEquilibrium() {
    Random random = new Random(2);
    for (int i = 0; i < 20_000; i++) {
      double fc = random.nextInt(20) == 0 ? 0 : Math.pow(10, -4 + 6 * random.nextDouble());
      double cya = random.nextInt(20) == 0 ? 0 : Math.pow(10, -4 + 6.6 * random.nextDouble());
      double ph = 5 + 5 * random.nextDouble();
      double t = 40 * random.nextDouble();
      double strength = random.nextInt(4) == 0 ? 0 : 0.5 * random.nextDouble();
      String at = "fc " + fc + ", cya " + cya + ", ph " + ph + ", t " + t + ", I " + strength;
      ChlorineSpecies s = Cyanurate.species(fc, cya, ph, t, strength);

      assertEquals(fc / 70906, s.chlorineMolL(), 1e-10 * fc / 70906, at);
      assertEquals(cya / 129075, s.cyanurateMolL(), 1e-10 * cya / 129075, at);
      // laws of mass action, one acid and one hydrolysis of each kind
      double log = IonicStrength.logActivity(strength, t);
      if (fc > 0) {
        assertEquals(
            HypochlorousAcid.pKa(t, strength), ph + pk(s.oclMinusMolL() / s.hoclMolL()), 1e-9, at);
        assertEquals(
            fc,
            Cyanurate.freeChlorineMgL(s.hoclMolL() * 70906, cya, ph, t, strength),
            1e-9 * fc,
            at);
      }
      if (cya > 0) {
        assertEquals(6.88 + log, ph + pk(s.h2CyMinusMolL() / s.h3CyMolL()), 1e-9, at);
        assertEquals(11.40 + 3 * log, ph + pk(s.hCy2MinusMolL() / s.h2CyMinusMolL()), 1e-9, at);
        assertEquals(13.5 + 5 * log, ph + pk(s.cy3MinusMolL() / s.hCy2MinusMolL()), 1e-9, at);
      }
      if (fc > 0 && cya > 0) {
        assertEquals(4.07, pk(s.h3CyMolL() * s.hoclMolL() / s.h2ClCyMolL()), 1e-9, at);
        assertEquals(2.93, pk(s.h2ClCyMolL() * s.hoclMolL() / s.hCl2CyMolL()), 1e-9, at);
        assertEquals(1.80, pk(s.hCl2CyMolL() * s.hoclMolL() / s.cl3CyMolL()), 1e-9, at);
      }
      if (strength == 0) {
        assertEquals(
            Cyanurate.hypochlorousAcidMgL(fc, cya, ph, t), s.hoclMolL() * 70906, 1e-12 * fc, at);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "-1, 30, 7.5, 25, 0",
    "101, 30, 7.5, 25, 0",
    "3, 501, 7.5, 25, 0",
    "3, 30, 4.9, 25, 0",
    "3, 30, 7.5, 41, 0",
    "3, 30, 7.5, 25, 0.6",
    "NaN, 30, 7.5, 25, 0"
  })
  void refusesOutside(double fc, double cya, double ph, double t, double strength) {
    assertThrows(OutsideValidityException.class, () -> Cyanurate.species(fc, cya, ph, t, strength));
  }
}
