package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ChlorineLossTest {
  private static final ChlorineLoss.Settings HOME = PlantSettings.domestic(1).loss();

  /** No loss but the sun's, in water of 1 m with this aD. */
  private static ChlorineLoss sunOnly(double attenuation) {
    return new ChlorineLoss(
        new ChlorineLoss.Settings(
            HOME.hoclPerS(),
            HOME.oclPerS(),
            HOME.boundPerS(),
            attenuation,
            0,
            0,
            9,
            0,
            0.5,
            0.15,
            0.5),
        1);
  }

  private static Water water(double freeMgL, double cyanuricMgL, double ph, double waterC) {
    Water water = new Water(1);
    water.freeChlorineMgL = freeMgL;
    water.cyanuricAcidMgL = cyanuricMgL;
    water.ph = ph;
    water.temperatureC = waterC;
    Cyanurate.equilibrate(water);
    return water;
  }

  private static double halfLifeMin(ChlorineLoss loss, Water water) {
    double half = water.freeChlorineMgL / 2;
    double minutes = 0;
    while (water.freeChlorineMgL > half) {
      loss.stepOpen(water, 6, 1);
      Cyanurate.equilibrate(water);
      minutes += 0.1;
    }
    return minutes;
  }

  /**
   * Nowell and Hoigné (1992): at the surface, 25 °C, 27.2, 17.0 and 12.2 min at pH 7.0, 7.5, 8.0
   * [computed from their k]; with aD = 1 the mean over the depth is 0.6321 of the surface.
   */
  @Test
  void sunTakesHalfInMinutesWithoutStabiliser() {
    assertEquals(27.2, halfLifeMin(sunOnly(0), water(2, 0, 7.0, 25)), 0.02 * 27.2);
    assertEquals(17.0, halfLifeMin(sunOnly(0), water(2, 0, 7.5, 25)), 0.02 * 17.0);
    assertEquals(12.2, halfLifeMin(sunOnly(0), water(2, 0, 8.0, 25)), 0.02 * 12.2);
    assertEquals(17.0 / 0.6321, halfLifeMin(sunOnly(1), water(2, 0, 7.5, 25)), 0.5);
  }

  /**
   * HOCl is nearly proportional to FC/CYA (Falk, abstract [checked]); only it and OCl- are lost.
   */
  @Test
  void stabiliserSlowsTheSun() {
    double bare = halfLifeMin(sunOnly(1), water(2, 0, 7.5, 25));
    double some = halfLifeMin(sunOnly(1), water(2, 30, 7.5, 25));
    double much = halfLifeMin(sunOnly(1), water(2, 80, 7.5, 25));
    assertTrue(some > 10 * bare, bare + " and " + some);
    assertTrue(much > 1.5 * some, some + " and " + much);
  }

  /**
   * Wojtowicz: 1–2 % of the chlorine a day by sun at 138 mg/L of stabiliser, 27–29 °C [checked,
   * abstract]. The free share by Wahman's constants alone makes more of it; within a factor of
   * four.
   */
  @Test
  void sunTakesFewPerCentADayFromWellStabilisedWater() {
    Sky sky = new Sky(new Sky.Settings(38, 0, -40, 0, 0), new Random(1));
    ChlorineLoss loss = sunOnly(HOME.attenuationPerM() * 1.4);
    Water water = water(3, 138, 7.5, 28);
    for (int minute = 0; minute < 1440; minute++) {
      sky.advanceTo(1_782_864_000.0 + 60 * minute);
      loss.stepOpen(water, 60, sky.ultravioletFraction());
      Cyanurate.equilibrate(water);
    }
    double share = 1 - water.freeChlorineMgL / 3;
    assertTrue(share > 0.01 && share < 0.08, "share " + share);
  }

  /** Dark loss k = 0.30 /day at 25 °C, twice that 9 °C above; the steady part comes on top. */
  @Test
  void darkLossDoublesWithTemperature() {
    assertEquals(2, darkLoss(34) / darkLoss(25), 0.01);
    assertEquals(2, darkLoss(25) / darkLoss(16), 0.01);
  }

  private static double darkLoss(double waterC) {
    Water water = water(3, 0, 7.5, waterC);
    return new ChlorineLoss(HOME, 1.4).stepOpen(water, 60, 0);
  }

  @Test
  void neverTakesMoreThanThereIs() {
    Water water = water(0.05, 30, 7.5, 30);
    water.loadMgL = 10;
    water.combinedChlorineMgL = 3;
    ChlorineLoss loss = new ChlorineLoss(HOME, 1.4);
    for (int i = 0; i < 5000; i++) {
      loss.stepOpen(water, 60, 1);
      Cyanurate.equilibrate(water);
      assertTrue(water.freeChlorineMgL >= 0, "free " + water.freeChlorineMgL);
      assertTrue(water.combinedChlorineMgL >= 0, "combined " + water.combinedChlorineMgL);
      assertTrue(water.loadMgL > 9, "load reacts without chlorine");
    }
  }
}
