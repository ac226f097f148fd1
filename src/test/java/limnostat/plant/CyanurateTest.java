package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class CyanurateTest {
  private static Water water(
      double freeMgL, double cyanuricMgL, double ph, double waterC, double salt) {
    Water water = new Water(1);
    water.freeChlorineMgL = freeMgL;
    water.cyanuricAcidMgL = cyanuricMgL;
    water.ph = ph;
    water.temperatureC = waterC;
    water.saltMgL = salt;
    Cyanurate.equilibrate(water);
    return water;
  }

  /** FC 3, CYA 30, pH 7.5, set of Wahman and Alexander [computed independently of this code]. */
  @Test
  void followsTheTemperatureSet() {
    assertEquals(0.0114, water(3, 30, 7.5, 5, 0).hoclMgL, 0.0001);
    assertEquals(0.0180, water(3, 30, 7.5, 15, 0).hoclMgL, 0.0001);
    assertEquals(0.0286, water(3, 30, 7.5, 25, 0).hoclMgL, 0.0001);
    assertEquals(0.0453, water(3, 30, 7.5, 35, 0).hoclMgL, 0.0002);
  }

  /**
   * Wahman and Alexander (2019): 2 mg/L of dichlor at pH 7.0 leaves 0.90 mg/L of true free chlorine
   * at 25 °C and 0.60 at 5 °C [checked]. Dichlor brings 0.910 mg of cyanuric acid a mg.
   */
  @Test
  void meetsThePublishedDichlorCheck() {
    Water warm = water(2, 1.82, 7.0, 25, 0);
    assertEquals(0.90, warm.hoclMgL + warm.oclMgL, 0.05 * 0.90);
    Water cold = water(2, 1.82, 7.0, 5, 0);
    assertEquals(0.60, cold.hoclMgL + cold.oclMgL, 0.05 * 0.60);
  }

  /** Without stabiliser: 52.1 % HOCl at pH 7.5 and 25 °C, 47.1 % with 3 g/L of salt [computed]. */
  @Test
  void splitsFreeChlorineWithoutStabiliser() {
    assertEquals(0.521, water(1, 0, 7.5, 25, 0).hoclMgL, 0.001);
    assertEquals(0.471, water(1, 0, 7.5, 25, 3000).hoclMgL, 0.002);
    assertEquals(0.225, water(1, 0, 8.0, 35, 0).hoclMgL, 0.001);
  }

  @Test
  void losesNoChlorineOverTheSpecies() {
    for (double free : new double[] {0, 1e-6, 0.3, 5, 40}) {
      Water water = water(free, 50, 7.4, 22, 3500);
      assertEquals(free, water.hoclMgL + water.oclMgL + water.boundMgL, 1e-12 * (1 + free));
    }
  }
}
