package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Supplier;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class PoolTest {
  /** Midnight by the sun at 8° east. */
  private static final double START = Instant.parse("2026-06-30T23:28:00Z").getEpochSecond();

  private static final double DAY_S = 86_400;
  private static final Outputs PUMP = new Outputs(0, 0, true);
  private static final Outputs FEED = new Outputs(1, 0, true);

  private static PlantSettings dry(PlantSettings settings) {
    PlantSettings.Climate climate = settings.climate();
    Weather.Settings weather = climate.weather();
    return settings.withClimate(
        new PlantSettings.Climate(
            climate.sky(),
            new Weather.Settings(
                weather.airMeanC(),
                weather.airSeasonC(),
                weather.airDayC(),
                weather.airMassSdC(),
                0,
                1),
            climate.heat(),
            climate.gas()));
  }

  private static PlantSettings lossless(long seed) {
    PlantSettings home = PlantSettings.domestic(seed);
    return dry(home).withLoss(home.loss().without()).withBathers(new Bathers.Settings(0, 1, 5.5));
  }

  private static double lostInDay(PlantSettings settings) {
    Pool pool = new Pool(settings, START);
    pool.advance(START + DAY_S, PUMP);
    return 2 - pool.truth().meanFreeChlorineMgL();
  }

  @Test
  void withoutLossEveryGramStays() {
    Pool pool = new Pool(lossless(1), START);
    for (int i = 1; i <= 2880; i++) {
      pool.advance(START + 60 * i, i % 3 == 0 ? PUMP : i % 7 == 0 ? Outputs.OFF : FEED);
    }
    double givenG = pool.truth().chlorineGivenG();
    assertTrue(givenG > 100, "given " + givenG);
    assertEquals(0, pool.truth().chlorineLostG(), 1e-9);
    assertEquals(givenG, (pool.truth().meanFreeChlorineMgL() - 2) * 50, 1e-6 * givenG);
  }

  @Test
  void givenLessLostIsWhatIsThere() {
    Pool pool = new Pool(PlantSettings.domestic(3), START);
    pool.bathe(6, START + 40_000, START + 50_000);
    for (int i = 1; i <= 14 * 144; i++) {
      pool.advance(START + 600 * i, i % 4 == 0 ? FEED : PUMP);
    }
    Truth truth = pool.truth();
    assertEquals(
        truth.chlorineGivenG() - truth.chlorineLostG(),
        (truth.meanFreeChlorineMgL() - 2) * 50,
        1e-6 * truth.chlorineGivenG());
  }

  /** Twenty bathers in 100 m³ take 1.10 mg/L: 5.5 g each, Bradford (2014). */
  @Test
  void bathersTakeTheirShare() {
    Pool pool = new Pool(lossless(1).withVolumeM3(100).withWater(4, 30, 3500), START);
    pool.bathe(20, START + 3600, START + 10_800);
    pool.advance(START + 7200, PUMP);
    assertEquals(20, pool.truth().bathers());
    pool.advance(START + 12 * 3600, PUMP);
    double fresh = pool.truth().combinedChlorineMgL();
    assertTrue(fresh > 0.05 && fresh < 0.3, "combined " + fresh);
    pool.advance(START + 30 * DAY_S, PUMP);
    assertEquals(1.10, 4 - pool.truth().meanFreeChlorineMgL(), 0.01);
    assertEquals(0, pool.truth().combinedChlorineMgL(), 0.01);
  }

  @Test
  void nightTakesLessThanDay() {
    PlantSettings quiet =
        dry(PlantSettings.domestic(2)).withBathers(new Bathers.Settings(0, 1, 5.5));
    Pool pool = new Pool(quiet, START);
    double atNight = 0;
    for (int hour = 1; hour <= 24; hour++) {
      double before = pool.truth().chlorineLostG();
      pool.advance(START + 3600 * hour, PUMP);
      double lost = pool.truth().chlorineLostG() - before;
      if (hour == 3) {
        atNight = lost;
      }
      if (hour == 13) {
        assertTrue(lost > 1.2 * atNight, "noon " + lost + " g, night " + atNight + " g");
      }
    }
  }

  @Test
  void stabiliserKeepsChlorine() {
    PlantSettings home = PlantSettings.domestic(2);
    assertTrue(
        lostInDay(home.withWater(2, 0, 3500)) > 1.9, "an unstabilised pool is bare by night");
    assertTrue(lostInDay(home.withWater(2, 60, 3500)) < lostInDay(home.withWater(2, 15, 3500)));
  }

  /** What the settings promise: 2–3 mg/L of demand a summer day, judged over a month at 2 mg/L. */
  @Test
  void domesticDemandIsThatOfASummerDay() {
    double sum = 0;
    for (long seed = 1; seed <= 3; seed++) {
      Pool pool = new Pool(PlantSettings.domestic(seed), START);
      for (int i = 1; i <= 14 * 1440; i++) {
        boolean low = pool.truth().freeChlorineMgL() < 2;
        pool.advance(START + 60 * i, low ? FEED : PUMP);
      }
      sum += pool.truth().chlorineLostG() / 50 / 14;
    }
    assertTrue(sum / 3 > 2 && sum / 3 < 3.2, "demand " + sum / 3);
  }

  @Tag("slow")
  @Test
  void aYearStaysWithinNature() {
    Pool pool = new Pool(PlantSettings.domestic(5), START);
    double coldest = 99;
    double warmest = 0;
    double rain = 0;
    for (int hour = 1; hour <= 365 * 24; hour++) {
      pool.advance(START + 3600 * hour, hour % 6 == 0 ? FEED : PUMP);
      Truth truth = pool.truth();
      coldest = Math.min(coldest, truth.waterC());
      warmest = Math.max(warmest, truth.waterC());
      rain += truth.rainMmH();
      assertTrue(truth.ph() > 7 && truth.ph() < 8.7, "pH " + truth.ph());
      assertTrue(truth.freeChlorineMgL() >= 0, "free " + truth.freeChlorineMgL());
      assertTrue(truth.solarWM2() >= 0 && truth.solarWM2() < 910);
    }
    assertTrue(coldest >= 0 && coldest < 6, "coldest " + coldest);
    assertTrue(warmest > 24 && warmest < 33, "warmest " + warmest);
    assertTrue(rain > 200 && rain < 2000, "rain of a year, mm " + rain);
    assertTrue(pool.truth().cyanuricAcidMgL() < 29, "rain thins stabiliser");
    assertTrue(pool.truth().totalAlkalinityMgL() < 88, "rain thins alkalinity");
  }

  @Test
  void acidAndTheCellMovePh() {
    // without chlorine at the start: what is spent of it leaves acid and hides the drift
    PlantSettings bare = PlantSettings.domestic(4).withWater(0, 30, 3500);
    Pool drifting = new Pool(bare, START);
    Pool fed = new Pool(bare, START);
    drifting.advance(START + 3 * DAY_S, PUMP);
    fed.advance(START + 3 * DAY_S, FEED);
    assertTrue(drifting.truth().ph() > 7.52, "carbon dioxide leaves: " + drifting.truth().ph());
    assertTrue(fed.truth().ph() > drifting.truth().ph() + 0.05, "hydrogen strips");

    Pool acid = new Pool(PlantSettings.domestic(4), START);
    acid.advance(START + 1800, new Outputs(0, 1, true));
    acid.advance(START + 10_800, PUMP);
    assertEquals(500, acid.truth().acidGivenMl(), 1e-6);
    // 10 mL/m³ of 31 % takes 5 mg/L of alkalinity [computed, section 9 of the reference]
    assertEquals(85, acid.truth().totalAlkalinityMgL(), 0.3);
    assertTrue(acid.truth().ph() < 7.35, "pH " + acid.truth().ph());
  }

  @Test
  void sameSettingsAndCallsGiveTheSamePool() {
    assertEquals(twoDays(9), twoDays(9));
    assertNotEquals(twoDays(9), twoDays(10));
  }

  private static String twoDays(long seed) {
    Pool pool = new Pool(PlantSettings.domestic(seed), START);
    Random outputs = new Random(1);
    StringBuilder history = new StringBuilder();
    for (int i = 1; i <= 2 * 1440; i++) {
      pool.advance(START + 60 * i, new Outputs(outputs.nextInt(2), 0, outputs.nextInt(4) > 0));
      if (i % 60 == 0) {
        history.append(pool.signals()).append(pool.truth()).append(pool.test(i)).append('\n');
      }
    }
    return history.toString();
  }

  /** Any pool, any outputs: amounts stay positive and every number a number. */
  @Tag("slow")
  @Test
  void strangePoolsStayPossible() {
    for (long seed = 1; seed <= 25; seed++) {
      PlantSettings settings = PlantSettings.random(seed, 1);
      Pool pool = new Pool(settings, START);
      Random outputs = new Random(seed);
      double t = START;
      for (int i = 0; i < 700; i++) {
        t += outputs.nextInt(8) == 0 ? 3600 : 0.1 + 300 * outputs.nextDouble();
        double acid = outputs.nextInt(40) == 0 ? 1 : 0;
        pool.advance(t, new Outputs(outputs.nextInt(2), acid, outputs.nextInt(3) > 0));
        Truth truth = pool.truth();
        String at = "seed " + seed + " step " + i + ": ";
        Supplier<String> where = () -> at + truth;
        assertTrue(truth.freeChlorineMgL() >= 0 && truth.freeChlorineMgL() < 60, where);
        assertTrue(truth.combinedChlorineMgL() >= 0, where);
        assertTrue(truth.hoclMgL() >= 0 && truth.hoclMgL() <= truth.freeChlorineMgL(), where);
        assertTrue(truth.ph() > 2.5 && truth.ph() < 9, where);
        assertTrue(truth.waterC() >= 0.5 && truth.waterC() < 45, where);
        assertTrue(truth.saltMgL() >= 0 && truth.cyanuricAcidMgL() >= 0, where);
        double orpMv = ((Signal.Analog) pool.signals().of(Role.ORP_MV)).value();
        // chlorine fed into a standing line reaches hundreds of mg/L at the probes
        assertTrue(orpMv > 200 && orpMv < 1300, () -> where.get() + " orp " + orpMv);
      }
    }
  }

  @Test
  void signalsTellTheTruthWithTheirErrors() {
    Pool pool = new Pool(PlantSettings.domestic(1), START);
    pool.advance(START + 12 * 3600, PUMP);
    Truth truth = pool.truth();
    assertEquals(truth.waterC() + 0.2, analog(pool, Role.WATER_C), 0.2);
    double slopeMv = 0.98 * GlassElectrode.nernstMv(truth.waterC());
    assertEquals(-4 + slopeMv * (7 - truth.ph()), analog(pool, Role.PH_MV), 3);
    assertEquals(new Signal.Contact(true), pool.signals().of(Role.FLOW));
    assertEquals(new Signal.Contact(true), pool.signals().of(Role.PUMP_ON));
    assertEquals(0, analog(pool, Role.CELL_A));
    assertTrue(pool.signals().of(Role.TANK_LOW) instanceof Signal.Missing, "a cell has no tank");
  }

  private static double analog(Pool pool, Role role) {
    return ((Signal.Analog) pool.signals().of(role)).value();
  }

  @Test
  void flowMeterReadsLitresAMinute() {
    PlantSettings home = PlantSettings.domestic(1);
    Pool pool = new Pool(home.withFitted(home.instruments().fitted(), true), START);
    pool.advance(START + 60, PUMP);
    assertEquals(50_000 / 5.0 / 60, analog(pool, Role.FLOW), 0.05 * 167); // 50 m³ in 5 h
  }

  @Test
  void ownTimerRunsThePumpByTheSun() {
    PlantSettings home = PlantSettings.domestic(1);
    Hydraulics.Settings h = home.hydraulics();
    Pool pool =
        new Pool(
            home.withHydraulics(
                new Hydraulics.Settings(
                    new Hydraulics.Pump.OwnTimer(22, 6),
                    h.turnoverH(),
                    h.inletShare(),
                    h.jetRatio(),
                    h.idleExchangeH(),
                    h.probeLineM3(),
                    h.returnLineM3(),
                    h.lineCreepH())),
            START);
    assertTrue(pool.flows(), "midnight lies within 22–4 h");
    pool.advance(START + 5 * 3600, PUMP);
    assertTrue(!pool.flows());
    pool.advance(START + 23 * 3600, Outputs.OFF);
    assertTrue(pool.flows());
  }

  /** Kit errors: 0.2 mg/L or 10 % of free chlorine as standard deviation. */
  @Test
  void testKitErrsAsMuchAsSaid() {
    PlantSettings cold = PlantSettings.domestic(1).withWater(4, 30, 3500);
    Pool pool = new Pool(cold, START);
    double squares = 0;
    int count = 2000;
    for (int i = 0; i < count; i++) {
      double error = pool.test(i).freeChlorineMgL() - pool.truth().freeChlorineMgL();
      squares += error * error;
    }
    assertEquals(0.4, Math.sqrt(squares / count), 0.03);
  }

  @Test
  void timeDoesNotRunBackwards() {
    Pool pool = new Pool(PlantSettings.domestic(1), START);
    pool.advance(START, PUMP);
    assertThrows(IllegalArgumentException.class, () -> pool.advance(START - 1, PUMP));
    assertThrows(IllegalArgumentException.class, () -> pool.advance(Double.NaN, PUMP));
  }

  @Test
  void settingsForASiteAreTaken() {
    PlantSettings settings =
        PlantSettings.domestic(1)
            .withVolumeM3(80)
            .withPlace(-33, 151)
            .withLabelGH(35)
            .withWater(3, 45, 4100);
    assertEquals(
        new PlantSettings.Basin(80, 1.4, 3, 7.5, 90, 45, 4100, OptionalDouble.empty()),
        settings.basin());
    assertEquals(35, settings.feeders().chlorine().labelGH());
    Pool pool = new Pool(settings, START);
    assertTrue(pool.truth().waterC() < 10, "July is winter there: " + pool.truth().waterC());
    assertEquals(PlantSettings.domestic(3).basin(), PlantSettings.random(3, 0).basin());
  }

  /** Neighbouring seeds give pools that differ, over the whole range that is promised. */
  @Test
  void randomPoolsFillTheirRange() {
    double smallest = 999;
    double largest = 0;
    for (long seed = 1; seed <= 100; seed++) {
      double volumeM3 = PlantSettings.random(seed, 1).basin().volumeM3();
      smallest = Math.min(smallest, volumeM3);
      largest = Math.max(largest, volumeM3);
      double half = PlantSettings.random(seed, 0.5).basin().volumeM3();
      assertEquals(50 + 0.5 * (volumeM3 - 50), half, 1e-9);
    }
    assertTrue(smallest >= 20 && smallest < 26, "smallest " + smallest);
    assertTrue(largest <= 120 && largest > 114, "largest " + largest);
  }
}
