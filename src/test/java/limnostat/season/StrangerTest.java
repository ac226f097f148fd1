package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import limnostat.plant.Strangeness;
import limnostat.water.Cyanurate;
import org.junit.jupiter.api.Test;

class StrangerTest {
  private static SeasonSettings season(Spread spread, Family family, Set<Perfect> perfect) {
    return new SeasonSettings(
        1, 60, 1, spread, family, List.of(Player.CLAIRVOYANT), 0, false, perfect, 60);
  }

  private static Stranger stranger(Family family, long seed) {
    return new Stranger(season(Spread.STRANGE, family, Set.of()), seed, 1_780_264_800);
  }

  private static Site site(Spread spread, Family family, long seed) {
    SeasonSettings whole = season(spread, family, Set.of());
    SeasonSettings shortOne =
        new SeasonSettings(1, 2, 1, spread, family, whole.players(), 0, false, whole.perfect(), 60);
    return SiteDraw.site(shortOne, 1, seed);
  }

  /** Only what a family names differs from the wide pool of the same seed. */
  @Test
  void aFamilyMakesItsPartStrangeAndNoOther() {
    Site wide = site(Spread.WIDE, Family.ALL, 5);
    Site electrode = site(Spread.STRANGE, Family.ELECTRODE, 5);
    assertNotEquals(wide.plant().instruments().orp(), electrode.plant().instruments().orp());
    assertNotEquals(Strangeness.NONE.electrode(), electrode.plant().strange().electrode());
    assertEquals(wide.plant().loss(), electrode.plant().loss());
    assertEquals(wide.plant().feeders(), electrode.plant().feeders());
    assertEquals(wide.kit(), electrode.kit());
    assertEquals(wide.habitUnixS(), electrode.habitUnixS());
    assertEquals(wide.configured(), electrode.configured());

    Site people = site(Spread.STRANGE, Family.PEOPLE, 5);
    assertTrue(people.kit() instanceof HouseholdKit);
    assertEquals(wide.plant(), people.plant());

    Site water = site(Spread.STRANGE, Family.WATER, 5);
    assertEquals(wide.plant().instruments(), water.plant().instruments());
    assertEquals(wide.kit(), water.kit());
    assertNotEquals(Strangeness.NONE.organics(), water.plant().strange().organics());

    Site plant = site(Spread.STRANGE, Family.PLANT, 5);
    assertEquals(wide.plant().instruments(), plant.plant().instruments());
    assertNotEquals(
        wide.configured().estimate().volumeM3(), plant.configured().estimate().volumeM3(), 1e-9);

    Site all = site(Spread.STRANGE, Family.ALL, 5);
    assertEquals(electrode.plant().instruments().orp(), all.plant().instruments().orp());
    assertEquals(electrode.plant().strange().electrode(), all.plant().strange().electrode());
    assertEquals(water.plant().strange().organics(), all.plant().strange().organics());
    assertEquals(people.kit(), all.kit());
    assertEquals(plant.configured().estimate().volumeM3(), all.configured().estimate().volumeM3());
  }

  /** The background is that at which 10 % of free chlorine move the electrode as drawn. */
  @Test
  void backgroundGivesTheSensitivity() {
    for (double cyanuricAcidMgL : new double[] {15, 40, 90}) {
      double background = Stranger.backgroundHoclMgL(1.1, 55, cyanuricAcidMgL);
      double at = Cyanurate.hypochlorousAcidMgL(3, cyanuricAcidMgL, 7.5, 25);
      double above = Cyanurate.hypochlorousAcidMgL(3.3, cyanuricAcidMgL, 7.5, 25);
      assertEquals(1.1, 55 * Math.log10((above + background) / (at + background)), 1e-9);
      assertEquals(0, Stranger.backgroundHoclMgL(9, 55, cyanuricAcidMgL), "a sound one is sound");
    }
  }

  /** Over 400 pools: factors within their ranges and out to their ends. */
  @Test
  void whatIsConfiguredIsOffAsFarAsStated() {
    double[] low = {9, 9, 9, 9};
    double[] high = new double[4];
    for (long seed = 0; seed < 400; seed++) {
      Stranger all = stranger(Family.ALL, seed);
      double[] drawn = {
        all.volumeFactor(1), all.outputFactor(1), all.stabiliserFactor(1), all.sizeFactor(1)
      };
      for (int i = 0; i < 4; i++) {
        low[i] = Math.min(low[i], drawn[i]);
        high[i] = Math.max(high[i], drawn[i]);
      }
    }
    double[][] range = {{0.6, 1.5}, {0.6, 1.5}, {0.3, 2}, {0.7, 6}};
    for (int i = 0; i < 4; i++) {
      assertTrue(low[i] >= range[i][0] && low[i] < 1.1 * range[i][0], i + " low " + low[i]);
      assertTrue(high[i] <= range[i][1] && high[i] > 0.9 * range[i][1], i + " high " + high[i]);
    }
  }

  @Test
  void everyKitAndEveryHabitIsMet() {
    Set<HouseholdKit.Kind> kinds = EnumSet.noneOf(HouseholdKit.Kind.class);
    Set<Integer> tests = new TreeSet<>();
    for (long seed = 0; seed < 100; seed++) {
      Stranger people = stranger(Family.PEOPLE, seed);
      kinds.add(((HouseholdKit) people.kit(new Kit(1, 1, 0, 0, 0, 0))).kind());
      List<Double> habit = people.habit(List.of(1_780_300_000.0));
      assertEquals(1_780_300_000.0, habit.get(0));
      assertEquals(habit.stream().sorted().toList(), habit, "seed " + seed);
      tests.add(habit.size());
    }
    assertEquals(EnumSet.allOf(HouseholdKit.Kind.class), kinds);
    assertTrue(tests.contains(3) && tests.stream().anyMatch(n -> n >= 19), tests::toString);
  }

  @Test
  void perfectTakesTheStrangenessOfItsPart() {
    Set<Perfect> everything = EnumSet.allOf(Perfect.class);
    SeasonSettings perfect =
        new SeasonSettings(
            1, 2, 1, Spread.STRANGE, Family.ALL, List.of(), 0, false, everything, 60);
    Site site = SiteDraw.site(perfect, 1, 5);
    assertEquals(Strangeness.NONE.electrode(), site.plant().strange().electrode());
    assertTrue(site.kit() instanceof Kit);
    assertEquals(site.plant().basin().volumeM3(), site.configured().estimate().volumeM3(), 1e-9);
    assertEquals(
        site.plant().basin().cyanuricAcidMgL(),
        site.configured().estimate().slow().cyanuricAcidMgL().getAsDouble(),
        1e-9);
  }

  /** A pool is a pool: a short season of each part runs, and the clairvoyant can play. */
  @Test
  void aShortSeasonOfEachFamilyRuns() {
    for (Family family : Family.values()) {
      SeasonSettings season =
          new SeasonSettings(1, 3, 7, Spread.STRANGE, family, List.of(), 0, false, Set.of(), 60);
      SeasonReport report = new Season(season).run(pool -> {});
      assertEquals(Set.of("clairvoyant"), report.summary().keySet());
      Score score = report.pools().get(0).contestants().get("clairvoyant");
      assertTrue(score.fedG() > 0 && score.highestMgL() < 15, family + " " + score);
    }
  }
}
