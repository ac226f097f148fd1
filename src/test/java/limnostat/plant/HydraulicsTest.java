package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class HydraulicsTest {
  private static final Hydraulics.Settings HOME = PlantSettings.domestic(1).hydraulics();

  private static double gramsIn(Hydraulics hydraulics) {
    return hydraulics.bodies().stream().mapToDouble(w -> w.freeChlorineMgL * w.volumeM3).sum();
  }

  private static Fed chlorine(double grams) {
    return new Fed(grams, 0, 0, 0);
  }

  @Test
  void doseReachesTheInletFirstAndTheProbesLater() {
    Hydraulics hydraulics = new Hydraulics(HOME, 50);
    hydraulics.switchPump(true, 0, 0, false);
    double probesRoseMin = -1;
    for (int minute = 1; minute <= 600; minute++) {
      hydraulics.step(60, chlorine(minute <= 30 ? 1 : 0));
      if (probesRoseMin < 0 && hydraulics.probeLine.freeChlorineMgL > 0.3) {
        probesRoseMin = minute;
      }
      if (minute == 30) {
        assertTrue(hydraulics.inlet.freeChlorineMgL > 1.5 * hydraulics.bulk.freeChlorineMgL);
      }
    }
    assertTrue(probesRoseMin > 10 && probesRoseMin < 60, "probes after min " + probesRoseMin);
    assertEquals(30 / 50.0, hydraulics.bulk.freeChlorineMgL, 0.001);
    assertEquals(30, gramsIn(hydraulics), 1e-9);
  }

  @Test
  void chlorineFedWithoutFlowWaitsInTheLine() {
    Hydraulics hydraulics = new Hydraulics(HOME, 50);
    hydraulics.switchPump(true, 0, 0, true);
    assertEquals(0, hydraulics.flowM3S());
    for (int minute = 0; minute < 60; minute++) {
      hydraulics.step(60, chlorine(0.1));
    }
    assertEquals(0, hydraulics.bulk.freeChlorineMgL, 1e-12);
    assertEquals(0, hydraulics.inlet.freeChlorineMgL, 1e-12);
    assertTrue(hydraulics.returnLine.freeChlorineMgL > 50, "mg/L in the line");
    assertTrue(hydraulics.probeLine.freeChlorineMgL > 0.1, "some creeps to the probes");
    hydraulics.switchPump(true, 0, 0, false);
    hydraulics.step(60, Fed.NOTHING);
    assertTrue(hydraulics.inlet.freeChlorineMgL > 0.3, "the slug arrives");
    assertEquals(6, gramsIn(hydraulics), 1e-9);
  }

  @Test
  void standingPoolMixesSlowly() {
    Hydraulics hydraulics = new Hydraulics(HOME, 50);
    hydraulics.inlet.freeChlorineMgL = 2;
    hydraulics.switchPump(false, 0, 0, false);
    for (int minute = 0; minute < 60; minute++) {
      hydraulics.step(60, Fed.NOTHING);
    }
    double left = hydraulics.inlet.freeChlorineMgL - hydraulics.bulk.freeChlorineMgL;
    assertTrue(left > 1.2 && left < 1.8, "difference after 1 h " + left);
  }
}
