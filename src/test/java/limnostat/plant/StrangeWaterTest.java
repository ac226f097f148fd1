package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.Set;
import limnostat.actuate.Outputs;
import limnostat.plant.Hydraulics.Pump.OwnTimer;
import limnostat.plant.Hydraulics.Pump.OwnTimers;
import org.junit.jupiter.api.Test;

/** Sun, algae, what washes in, fresh water and timers of strange pools. */
class StrangeWaterTest {
  private static final double DAY_S = 86_400;

  private static Water water(double freeMgL, double cyanuricAcidMgL) {
    Water water = new Water(50);
    water.freeChlorineMgL = freeMgL;
    water.cyanuricAcidMgL = cyanuricAcidMgL;
    water.temperatureC = 25;
    return water;
  }

  private static final Algae.Settings GREEN = new Algae.Settings(0.1, 8, 0.7, 1, 0.03, 2);

  @Test
  void algaeGrowInStarvedWaterAndDieOfChlorine() {
    Algae algae = new Algae(GREEN);
    live(algae, 0, 3);
    assertEquals(0.1 * Math.exp(0.7 * 3), algae.demandMgLDay(), 0.01);
    live(algae, 0, 20);
    assertEquals(8, algae.demandMgLDay(), 1e-9, "at most so many");
    live(algae, 2.4, 2); // twice 3 % of 40 mg/L: they die at the stated rate
    assertEquals(8 * Math.exp(-2), algae.demandMgLDay(), 0.01);
    live(algae, 2.4, 20);
    assertEquals(0.1, algae.demandMgLDay(), 1e-9, "they never go altogether");
  }

  private static void live(Algae algae, double freeMgL, double days) {
    Water water = water(freeMgL, 40);
    for (double s = 0; s < days * DAY_S; s += 600) {
      algae.live(water, 600);
    }
  }

  @Test
  void algaeTakeWhatTheyAreSaidTo() {
    Algae algae = new Algae(new Algae.Settings(4, 4, 0, 0, 0.03, 2));
    Water water = water(3, 40);
    double taken = algae.take(water, 3600);
    assertEquals(4.0 / 24, taken, 0.02);
    assertEquals(3, water.freeChlorineMgL + taken, 1e-12);
    assertEquals(0, algae.take(water(0, 40), 3600));
  }

  /** No stabiliser at all: the stated rate at noon; with c0 of it half; nothing by night. */
  @Test
  void sunTakesByItsOwnLaw() {
    SunLaw law = new SunLaw(1.2, 5, 1.3, 8, 17, 0.25);
    assertEquals(1.2 / 3600, law.perS(water(3, 0), 1, 12), 1e-12);
    assertEquals(0.6 / 3600, law.perS(water(3, 5), 1, 12), 1e-12);
    assertEquals(1.2 / 3600 * 0.25, law.perS(water(3, 0), 1, 7.9), 1e-12);
    assertEquals(1.2 / 3600 * Math.pow(0.5, 1.3), law.perS(water(3, 0), 0.5, 16.9), 1e-12);
    assertEquals(0, law.perS(water(3, 0), 0, 12));
  }

  /** What comes on usual days is taken in the end, and the balance holds. */
  @Test
  void organicsAreTakenAsTheyCome() {
    Organics organics =
        new Organics(new Organics.Settings(0.6, 0, DAY_S, 0.8, 0, 0, 0, 0), new Random(3));
    Water[] open = {water(3, 40)};
    double takenG = 0;
    double lastDayG = 0;
    for (int minute = 0; minute < 30 * 1440; minute++) {
      open[0].freeChlorineMgL = 3;
      organics.arrive(minute * 60.0, 60, open);
      double g = organics.react(60, open);
      takenG += g;
      lastDayG += minute >= 29 * 1440 ? g : 0;
    }
    assertEquals(0.6 * 50, lastDayG, 0.3, "all of a day's in the end");
    assertEquals(30 * 0.6 * 50 + 0.375 * 50, takenG + organics.storedMgL() * 50, 0.5);
  }

  /** A mean of one storm in two days over a year, each of the mean size. */
  @Test
  void stormsBringLoadAndThinTheWater() {
    Organics organics =
        new Organics(new Organics.Settings(0, 0, DAY_S, 1e-9, 0.5, 2, 1, 0.01), new Random(3));
    Water[] open = {water(0, 1000)};
    for (int hour = 0; hour < 365 * 24; hour++) {
      organics.arrive(hour * 3600.0, 3600, open);
    }
    double storms = organics.storedMgL() / 2;
    assertTrue(storms > 130 && storms < 230, "storms " + storms);
    assertEquals(1000 * Math.exp(-0.01 * storms), open[0].cyanuricAcidMgL, 1);
    assertTrue(open[0].loadMgL > 20, "load " + open[0].loadMgL);
  }

  @Test
  void washingBackReplacesItsShare() {
    Fresh fresh = new Fresh(new Fresh.Settings(7, 0.03));
    Water[] open = {water(3, 40)};
    double outG = 0;
    for (int hour = 0; hour <= 15 * 24; hour++) {
      outG += fresh.replace(hour * 3600.0, open);
    }
    assertEquals(3 * 0.97 * 0.97, open[0].freeChlorineMgL, 1e-9);
    assertEquals(40 * 0.97 * 0.97, open[0].cyanuricAcidMgL, 1e-9);
    assertEquals(50 * (3 - open[0].freeChlorineMgL), outG, 1e-9);
  }

  @Test
  void timersRunByTheSunAndStandOnMissedDays() {
    OwnTimers timers =
        new OwnTimers(List.of(new OwnTimer(8, 3), new OwnTimer(22.5, 3)), Set.of(20_001L));
    double day = 20_000 * DAY_S;
    assertTrue(timers.runs(day + 8.1 * 3600, 0));
    assertTrue(!timers.runs(day + 11.1 * 3600, 0));
    assertTrue(timers.runs(day + 1.4 * 3600, 0), "over midnight");
    assertTrue(timers.runs(day + 7.1 * 3600, 15), "an hour earlier 15° to the east");
    assertTrue(!timers.runs(day + DAY_S + 9 * 3600, 0), "missed");
    assertTrue(timers.runs(day + 2 * DAY_S + 9 * 3600, 0));
  }

  /** What is strange is off in a plain pool, and a strange one keeps its account. */
  @Test
  void whatAStrangePoolLosesIsInItsAccount() {
    PlantSettings plain = PlantSettings.domestic(3);
    Strangeness strange =
        new Strangeness(
            ElectrodeErrors.Settings.NONE,
            new SunLaw(1, 4, 1, 6, 20, 0.2),
            GREEN,
            new Organics.Settings(0.5, 0.3, DAY_S, 0.5, 0.5, 1, 1, 0.01),
            new Fresh.Settings(2, 0.02));
    Pool pool = new Pool(plain.withStrangeness(strange), 1_782_864_000);
    double atStartG = 50 * pool.truth().meanFreeChlorineMgL();
    for (int hour = 1; hour <= 96; hour++) {
      pool.advance(1_782_864_000 + hour * 3600, new Outputs(hour % 3 == 0 ? 1 : 0, 0, true));
    }
    Truth truth = pool.truth();
    assertEquals(
        atStartG + truth.chlorineGivenG() - truth.chlorineLostG(),
        50 * truth.meanFreeChlorineMgL(),
        0.5);
    Pool same = new Pool(plain.withStrangeness(Strangeness.NONE), 1_782_864_000);
    Pool untouched = new Pool(plain, 1_782_864_000);
    same.advance(1_782_900_000, new Outputs(0, 0, true));
    untouched.advance(1_782_900_000, new Outputs(0, 0, true));
    assertEquals(untouched.truth(), same.truth());
    assertTrue(truth.chlorineLostG() > 0);
  }
}
