package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import limnostat.actuate.Outputs;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.plant.Truth;
import org.junit.jupiter.api.Test;

class HouseholdKitTest {
  private static final double START_UNIX_S = 1_782_864_000;

  /** What 2,000 tests of water with this free chlorine show, one an hour. */
  private static List<Double> shown(
      HouseholdKit.Kind kind, double scatter, double step, double misread, double freeMgL) {
    HouseholdKit kit = new HouseholdKit(7, kind, scatter, 0, step, 0, misread, 0, 0);
    Truth at =
        new Pool(PlantSettings.domestic(1).withWater(freeMgL, 40, 3500), START_UNIX_S).truth();
    List<Double> shown = new ArrayList<>();
    for (int hour = 0; hour < 2000; hour++) {
      shown.add(kit.test(at(at, START_UNIX_S + hour * 3600)).freeChlorineMgL());
    }
    return shown;
  }

  private static Truth at(Truth t, double unixTimeS) {
    return new Truth(
        unixTimeS,
        t.freeChlorineMgL(),
        t.meanFreeChlorineMgL(),
        t.combinedChlorineMgL(),
        t.hoclMgL(),
        t.ph(),
        t.waterC(),
        t.cyanuricAcidMgL(),
        t.totalAlkalinityMgL(),
        t.saltMgL(),
        t.solarWM2(),
        t.cloudOctas(),
        t.airC(),
        t.rainMmH(),
        t.bathers(),
        t.flowLMin(),
        t.chlorineGivenG(),
        t.chlorineLostG(),
        t.acidGivenMl(),
        t.demandMgLDay());
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(v -> v).average().orElseThrow();
  }

  @Test
  void dropsScatterAndStep() {
    List<Double> shown = shown(HouseholdKit.Kind.DROPS, 0.1, 0.5, 0, 4);
    assertEquals(4, mean(shown), 0.05);
    double square = shown.stream().mapToDouble(v -> (v - 4) * (v - 4)).average().orElseThrow();
    assertEquals(Math.sqrt(0.4 * 0.4 + 0.5 * 0.5 / 12), Math.sqrt(square), 0.03);
    shown.forEach(v -> assertEquals(0, v % 0.5, 1e-9));
  }

  @Test
  void stripsShowTheirPadsOnly() {
    Set<Double> shown = new TreeSet<>(shown(HouseholdKit.Kind.STRIPS, 0.3, 0, 0, 3));
    assertTrue(Set.of(0.0, 0.5, 1.0, 3.0, 5.0, 10.0).containsAll(shown), shown::toString);
    assertTrue(shown.containsAll(Set.of(1.0, 3.0, 5.0)), shown::toString);
  }

  @Test
  void comparatorEndsAndPhotometerBleaches() {
    assertEquals(6, mean(shown(HouseholdKit.Kind.COMPARATOR, 0.05, 1, 0, 12)), 1e-9);
    assertEquals(
        10 * Math.exp(-1), mean(shown(HouseholdKit.Kind.PHOTOMETER, 0.001, 0, 0, 15)), 0.1);
  }

  /** A twentieth goes wrong: a quarter of it reads nothing, the rest 0.3 to 2.5 times the truth. */
  @Test
  void aMisreadNowAndThen() {
    List<Double> shown = shown(HouseholdKit.Kind.PHOTOMETER, 0.01, 0, 0.05, 4);
    long wrong = shown.stream().filter(v -> Math.abs(v - 4) > 0.3).count();
    long nothing = shown.stream().filter(v -> v == 0).count();
    assertTrue(wrong > 60 && wrong < 130, "wrong " + wrong);
    assertTrue(nothing > 10 && nothing < 45, "nothing " + nothing);
    shown.forEach(v -> assertTrue(v <= 10.1, "shows " + v));
  }

  @Test
  void combinedChlorineIsTakenForFree() {
    Truth truth = new Pool(PlantSettings.domestic(1), START_UNIX_S).truth();
    Truth spoiled =
        new Truth(
            truth.unixTimeS(),
            3,
            3,
            1,
            0.1,
            7.5,
            25,
            40,
            90,
            3500,
            0,
            0,
            20,
            0,
            0,
            100,
            0,
            0,
            0,
            2);
    HouseholdKit kit = new HouseholdKit(7, HouseholdKit.Kind.PHOTOMETER, 0, 0.1, 0, 0.4, 0, 0, 0);
    assertEquals(3 * 1.1 + 0.4, kit.test(spoiled).freeChlorineMgL(), 0.15);
  }

  /** What hands pour raises the pool by so much, and is not in the account of what was fed. */
  @Test
  void handsPourOnceEachAndAfterALowTest() {
    Pool pool = new Pool(PlantSettings.domestic(1), START_UNIX_S);
    double beforeMgL = pool.truth().meanFreeChlorineMgL();
    Hands hands = new Hands(List.of(new Hands.Pour(START_UNIX_S + 90, 2)), 1, 1.5);
    for (int minute = 0; minute < 4; minute++) {
      double fromUnixS = START_UNIX_S + 60 * minute;
      hands.act(pool, 50, fromUnixS, fromUnixS + 60, Optional.empty());
    }
    assertEquals(beforeMgL + 2, pool.truth().meanFreeChlorineMgL(), 1e-6);
    KitTest low = new KitTest(0.5, 7.4, OptionalDouble.empty());
    hands.act(pool, 50, START_UNIX_S + 240, START_UNIX_S + 300, Optional.of(low));
    assertEquals(beforeMgL + 3.5, pool.truth().meanFreeChlorineMgL(), 1e-6);
    KitTest fair = new KitTest(1.5, 7.4, OptionalDouble.empty());
    hands.act(pool, 50, START_UNIX_S + 300, START_UNIX_S + 360, Optional.of(fair));
    assertEquals(beforeMgL + 3.5, pool.truth().meanFreeChlorineMgL(), 1e-6);
    pool.advance(START_UNIX_S + 360, Outputs.OFF);
    assertEquals(0, pool.truth().chlorineGivenG());
  }
}
