package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.plant.ElectrodeErrors.Creep;
import limnostat.plant.ElectrodeErrors.Dead;
import limnostat.plant.ElectrodeErrors.Memory;
import limnostat.plant.ElectrodeErrors.Run;
import limnostat.plant.ElectrodeErrors.Settings;
import limnostat.plant.ElectrodeErrors.Slow;
import org.junit.jupiter.api.Test;

class ElectrodeErrorsTest {
  private static final double HOUR_S = 3600;
  private static final OrpElectrode.Settings PLATINUM =
      new OrpElectrode.Settings(780, 0, 50, 0, 4, 0, 0, 0, 0);

  private static Water water(double freeMgL, double hoclMgL) {
    Water water = new Water(1);
    water.freeChlorineMgL = freeMgL;
    water.hoclMgL = hoclMgL;
    water.temperatureC = 25;
    return water;
  }

  private static Settings only(
      double background, double pickup, Creep creep, Run run, Slow slow, Dead dead, Memory memory) {
    return new Settings(background, 0, 0, 0, pickup, creep, run, slow, dead, memory);
  }

  private static Settings dead(Dead dead) {
    return only(0, 0, Creep.NONE, Run.NONE, Slow.NONE, dead, Memory.NONE);
  }

  private static ElectrodeErrors errors(Settings settings) {
    return new ElectrodeErrors(settings, new Random(5));
  }

  private static double after(ElectrodeErrors errors, Water water, double hours) {
    for (double h = 0; h < hours; h += 0.1) {
      errors.step(360, water, false);
    }
    return errors.mv();
  }

  /** At a background as large as the HOCl half of the sensitivity is left. */
  @Test
  void backgroundFlattens() {
    Settings flat = only(0.1, 0, Creep.NONE, Run.NONE, Slow.NONE, Dead.NONE, Memory.NONE);
    double[] risesMv = new double[2];
    for (int i = 0; i < 2; i++) {
      double[] mv = new double[2];
      for (int j = 0; j < 2; j++) {
        OrpElectrode orp =
            new OrpElectrode(PLATINUM, new Random(1), errors(i == 0 ? Settings.NONE : flat));
        orp.step(0, water(3, j == 0 ? 0.1 : 0.101));
        mv[j] = orp.readingMv();
      }
      risesMv[i] = mv[1] - mv[0];
    }
    assertEquals(0.5, risesMv[1] / risesMv[0], 0.01);
    OrpElectrode orp = new OrpElectrode(PLATINUM, new Random(1), errors(flat));
    orp.step(0, water(0, 0));
    assertEquals(730, orp.readingMv(), 0.1, "water without chlorine looks like 0.1 mg/L of HOCl");
  }

  /** The same electrode without errors is the plain one, to the bit. */
  @Test
  void noneIsNone() {
    OrpElectrode plain = new OrpElectrode(PLATINUM, new Random(1));
    OrpElectrode none = new OrpElectrode(PLATINUM, new Random(1), errors(Settings.NONE));
    for (int i = 0; i < 100; i++) {
      plain.step(60, water(3, 0.1), true);
      none.step(60, water(3, 0.1), true);
      assertEquals(plain.readingMv(), none.readingMv(), 0);
    }
  }

  /** 63 % of the fall in one time constant, all of it in some; back within hours. */
  @Test
  void fallsSlowlyInDeadWaterAndRises() {
    ElectrodeErrors errors = errors(dead(new Dead(0.2, 300, 10)));
    assertEquals(0, after(errors, water(3, 0.1), 48), 0.1);
    assertEquals(-300 * (1 - Math.exp(-1)), after(errors, water(0, 0), 10), 3);
    assertEquals(-300, after(errors, water(0, 0), 100), 1);
    assertTrue(after(errors, water(3, 0.1), 6) > -20, "risen to " + errors.mv());
    assertEquals(-150, after(errors(dead(new Dead(0.2, 300, 1))), water(0.2, 0.01), 30), 1);
  }

  @Test
  void remembersAHighDoseForADayOrTwo() {
    Memory memory = new Memory(5, 40, 24);
    Settings settings = only(0, 0, Creep.NONE, Run.NONE, Slow.NONE, Dead.NONE, memory);
    ElectrodeErrors errors = errors(settings);
    assertEquals(0, after(errors, water(4.9, 0.2), 24), 1e-9);
    assertEquals(40, after(errors, water(10, 0.5), 24), 0.1);
    assertEquals(40 * Math.exp(-1), after(errors, water(3, 0.1), 24), 0.3);
  }

  @Test
  void creepSetsInOnItsDay() {
    Creep creep = new Creep(-2, 3);
    Settings settings = only(0, 0, creep, Run.NONE, Slow.NONE, Dead.NONE, Memory.NONE);
    ElectrodeErrors errors = errors(settings);
    assertEquals(0, after(errors, water(3, 0.1), 3 * 24), 0.1);
    assertEquals(-20, after(errors, water(3, 0.1), 10 * 24), 0.1);
  }

  @Test
  void runEndsOnceTheProbeIsCleaned() {
    Run run = new Run(2, 1, 2);
    Settings settings = only(0, 0, Creep.NONE, run, Slow.NONE, Dead.NONE, Memory.NONE);
    ElectrodeErrors errors = errors(settings);
    assertEquals(0, after(errors, water(3, 0.1), 24), 1);
    assertEquals(2 * 48, after(errors, water(3, 0.1), 48), 2);
    assertEquals(0, after(errors, water(3, 0.1), 48), 0.5);
  }

  @Test
  void picksUpWhileTheOutputIsOnAndFollowsWhatElseIsInTheWater() {
    Settings settings =
        new Settings(0, 0.5, -20, 0, 15, Creep.NONE, Run.NONE, Slow.NONE, Dead.NONE, Memory.NONE);
    ElectrodeErrors errors = errors(settings);
    Water water = water(3, 0.1);
    errors.step(60, water, true);
    assertEquals(15, errors.mv(), 1e-9);
    errors.step(60, water, false);
    assertEquals(0, errors.mv(), 1e-9);
    water.combinedChlorineMgL = 0.4;
    water.temperatureC = 29;
    errors.step(60, water, false);
    assertEquals(-20 * 0.4 + 0.5 * 4, errors.mv(), 1e-9);
  }

  /** Over 400 electrodes: the walk's spread after 9 days, and the slow error's at any time. */
  @Test
  void walksAndWandersAsFarAsSaid() {
    Settings walk =
        new Settings(0, 0, 0, 2, 0, Creep.NONE, Run.NONE, Slow.NONE, Dead.NONE, Memory.NONE);
    Settings slow = only(0, 0, Creep.NONE, Run.NONE, new Slow(20, 12), Dead.NONE, Memory.NONE);
    assertEquals(2 * 3, sd(walk, 9), 0.6);
    assertEquals(20, sd(slow, 0.01), 2);
    assertEquals(20, sd(slow, 9), 2);
  }

  private static double sd(Settings settings, double days) {
    Random seeds = new Random(11);
    double squares = 0;
    for (int i = 0; i < 400; i++) {
      ElectrodeErrors errors = new ElectrodeErrors(settings, new Random(seeds.nextLong()));
      for (double s = 0; s < days * 24 * HOUR_S; s += 600) {
        errors.step(600, water(3, 0.1), false);
      }
      squares += errors.mv() * errors.mv();
    }
    return Math.sqrt(squares / 400);
  }
}
