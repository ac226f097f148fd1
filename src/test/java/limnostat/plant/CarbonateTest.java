package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class CarbonateTest {
  private static Water water(double alkalinityMgL, double cyanuricMgL, double ph) {
    Water water = new Water(1);
    water.alkalinityMmolL = alkalinityMgL / 50.0435;
    water.cyanuricAcidMgL = cyanuricMgL;
    water.temperatureC = 25;
    Carbonate.setPh(water, ph);
    return water;
  }

  private static double afterAcid(
      double alkalinityMgL, double cyanuricMgL, double ph, double meqL) {
    Water water = water(alkalinityMgL, cyanuricMgL, ph);
    water.alkalinityMmolL -= meqL;
    Carbonate.equilibrate(water);
    return water.ph;
  }

  /** TA 100, pH 7.8, no salt: 0.05, 0.10, 0.20 meq/L give 7.568, 7.407, 7.182 ±0.01 [computed]. */
  @Test
  void acidLowersPhAsInTheTable() {
    assertEquals(7.568, afterAcid(100, 0, 7.8, 0.05), 0.01);
    assertEquals(7.407, afterAcid(100, 0, 7.8, 0.10), 0.01);
    assertEquals(7.182, afterAcid(100, 0, 7.8, 0.20), 0.01);
  }

  /**
   * Rows of the acid table, TA and CYA and pH from-to with the acid in meq/L [computed with pK6 =
   * 6.88; Wahman's is 6.97 here, hence 0.02 where there is stabiliser].
   */
  @Test
  void stabiliserBuffersToo() {
    assertEquals(7.5, afterAcid(100, 30, 7.8, 0.0822), 0.02);
    assertEquals(7.4, afterAcid(100, 50, 7.8, 0.1331), 0.02);
    assertEquals(7.5, afterAcid(80, 0, 8.0, 0.0781), 0.01);
    assertEquals(7.4, afterAcid(120, 0, 7.6, 0.0745), 0.01);
  }

  /** TA 80 is in balance with air at pH 8.39 and 25 °C [computed, other constants]. */
  @Test
  void breathesUpToTheBalanceWithAir() {
    Water water = water(80, 0, 7.5);
    Carbonate gas = new Carbonate(new Carbonate.Settings(0.5, 0), 1.4);
    double last = water.ph;
    for (int hour = 0; hour < 24 * 365; hour++) {
      gas.breathe(water, 3600, 0);
      Carbonate.equilibrate(water);
      assertEquals(last, StrictMath.min(last, water.ph + 1e-6), 1e-5, "pH falls in hour " + hour);
      last = water.ph;
    }
    assertEquals(8.39, water.ph, 0.02);
    assertEquals(80 / 50.0435, water.alkalinityMmolL, "carbon dioxide takes no alkalinity");
  }
}
