package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import org.junit.jupiter.api.Test;

class OwnerTest {
  private static final double HOUR_S = 3600;
  private static final double DAY_S = 86_400;

  /** Hours of the tests over a season in which one is always asked for. */
  private static List<Integer> tests(Owner owner, int days, boolean asked) {
    List<Integer> hours = new ArrayList<>();
    for (int hour = 0; hour < 24 * days; hour++) {
      boolean pump = hour % 24 >= 9 && hour % 24 < 18;
      if (owner.tests(asked, pump, hour * HOUR_S, HOUR_S)) {
        hours.add(hour);
      }
    }
    return hours;
  }

  @Test
  void whoTestsByHabitIsDeafAndWhoAnswersHasNoHabitButTheFirst() {
    List<Double> habit = List.of(10 * HOUR_S, 7 * DAY_S + 10 * HOUR_S);
    assertEquals(List.of(10, 178), tests(new Owner(habit, false), 30, true));
    assertEquals(List.of(10), tests(new Owner(habit, true), 30, false));
  }

  @Test
  void askedOwnerTestsWithinADayButOnceAWeek() {
    List<Integer> hours = tests(new Owner(List.of(), true), 70, true);
    assertTrue(hours.get(0) <= 24, "first at hour " + hours.get(0));
    assertTrue(hours.size() >= 9 && hours.size() <= 11, "tests " + hours);
    hours.forEach(hour -> assertTrue(hour % 24 >= 9 && hour % 24 < 18, "at hour " + hour));
  }

  /**
   * Where people are willing: each second day, some hours after it was asked, awake, pump or not.
   */
  @Test
  void willingOwnerTestsEachSecondDayWhenAwake() {
    Owner owner = new Owner(List.of(), true, Answering.willing(0));
    List<Integer> hours = tests(owner, 40, true);
    assertTrue(hours.size() >= 17 && hours.size() <= 20, "tests " + hours);
    hours.forEach(hour -> assertTrue(hour % 24 >= 8 && hour % 24 < 22, "at hour " + hour));
    assertTrue(Answering.willing(0).possible(false, 21 * HOUR_S), "awake, the pump rests");
    assertFalse(Answering.willing(0).possible(true, 23 * HOUR_S), "asleep");
    assertEquals(List.of(), tests(new Owner(List.of(), true, Answering.willing(0)), 9, false));
  }

  @Test
  void kitErrsAsItIsSetTo() {
    Pool pool = new Pool(PlantSettings.domestic(1).withWater(3.4, 40, 3500), 1_782_864_000);
    Kit kit = new Kit(9, 1, 0.1, 0, 0.5, 1);
    KitTest found = kit.test(pool.truth());
    assertEquals(found, kit.test(pool.truth()), "one moment, one result");
    assertEquals(0, found.freeChlorineMgL() % 0.5, 1e-9);
    assertTrue(Math.abs(found.freeChlorineMgL() - 3.4) < 2, "found " + found);
    assertEquals(3.4, kit.perfect().test(pool.truth()).freeChlorineMgL(), 1e-9);
    assertEquals(40, kit.perfect().test(pool.truth()).cyanuricAcidMgL().getAsDouble(), 1e-9);
    Kit silent = new Kit(9, 1, 0, 0, 0, 0);
    assertFalse(silent.test(pool.truth()).cyanuricAcidMgL().isPresent());
  }
}
