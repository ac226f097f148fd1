package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.actuate.Outputs;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import org.junit.jupiter.api.Test;

class HeatBalanceTest {
  /** By hand: 1800 W/m² on 0.8 m of 4.168 MJ/(m³ K), an hour. */
  @Test
  void sunAndAir() {
    assertEquals(1800 * 3600 / (4.168e6 * 0.8), 3600 * HeatBalance.warmingKS(), 1e-9);
  }

  /**
   * 1 kWh warms 1 m³ by 0.86 K (3.6 MJ over 4.168 MJ/(m³ K)), so 125 kW warm 50 m³ by 2.2 K in an
   * hour, and 60 kW a spa of 2 m³ by 26 K.
   */
  @Test
  void heater() {
    assertEquals(125 / 50.0 * 0.8637, 3600 * HeatBalance.heaterKS(50), 1e-3);
    assertEquals(60 / 2.0 * 0.8637, 3600 * HeatBalance.heaterKS(2), 1e-2);
    assertEquals(HeatBalance.heaterKS(24), HeatBalance.heaterKS(5000), 1e-12);
  }

  /** 1500 W/m² and 1 K of cold water in an hour, by hand. */
  @Test
  void cooling() {
    assertEquals(1500 * 3600 / (4.168e6 * 0.8) + 1, 3600 * HeatBalance.coolingKS(), 1e-9);
  }

  /**
   * The simulated pool, whose heat shares no equation with this, stays within the bounds through a
   * summer's days and nights.
   */
  @Test
  void aSimulatedPoolStaysWithin() {
    double t = 1_781_000_000;
    for (long seed = 1; seed <= 4; seed++) {
      Pool pool = new Pool(PlantSettings.random(seed, 1), t);
      double before = pool.truth().waterC();
      double most = 0;
      for (int h = 1; h <= 20 * 24; h++) {
        pool.advance(t + 3600 * h, Outputs.OFF);
        double now = pool.truth().waterC();
        assertTrue(now - before < 3600 * HeatBalance.warmingKS(), "hour " + h);
        assertTrue(before - now < 3600 * HeatBalance.coolingKS(), "hour " + h);
        most = Math.max(most, Math.abs(now - before));
        before = now;
      }
      assertTrue(most > 0.1, "the pool lives: " + most);
    }
  }
}
