package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

@Tag("slow")
class SeasonTest {
  private static SeasonSettings near(int pools, int days, long seed) {
    return new SeasonSettings(pools, days, seed, Spread.NEAR, false, Set.of(), 60);
  }

  private static SeasonReport run(SeasonSettings settings) {
    return new Season(settings).run(pool -> {});
  }

  @Test
  void sameSettingsGiveTheSameSeason() throws Exception {
    SeasonSettings wide = new SeasonSettings(3, 2, 5, Spread.WIDE, true, Set.of(), 60);
    assertEquals(run(wide).json(), run(wide).json());
    assertNotEquals(
        run(near(1, 1, 1)).pools().get(0).contestants(),
        run(near(1, 1, 2)).pools().get(0).contestants());
  }

  /** A pool is the same whatever the number of pools that it stands among. */
  @Test
  void fewerPoolsAreTheFirstOfMore() {
    assertEquals(run(near(1, 1, 3)).pools().get(0), run(near(2, 1, 3)).pools().get(0));
  }

  @Test
  void everyContestantFeedsWithinReason() {
    Map<String, Score> scores = run(near(1, 5, 1)).pools().get(0).contestants();
    assertEquals(5, scores.size());
    scores.forEach(
        (key, score) -> {
          // a demand of 2 to 6 mg/L a day in about 60 m³, and half of it for the worst of them
          assertTrue(score.fedG() > 5 * 60 && score.fedG() < 5 * 360, key + " " + score);
          assertTrue(score.highestMgL() > 2 && score.highestMgL() < 8, key + " " + score);
          assertTrue(score.belowOnePercent() < 20, key + " " + score);
          assertTrue(score.switchingsPerDay() >= 0.6, key + " " + score);
          // minimum times of 60 s each allow one switching in two minutes of the pump's 10 h
          assertTrue(score.switchingsPerDay() < 300, key + " " + score);
          assertTrue(score.tests() >= 1, key + " " + score);
        });
    assertNotNull(scores.get("limnostat").estimateErrorMgL());
    assertNull(scores.get("orp_pi").estimateErrorMgL());
    assertEquals(100, scores.get("clairvoyant").ofClairvoyantPercent(), 1e-9);
  }

  @Test
  void nobodyHoldsTheBandForLongerThanTheClairvoyant() {
    for (SeasonReport.PoolResult pool : run(near(2, 7, 4)).pools()) {
      Score best = pool.contestants().get("clairvoyant");
      assertTrue(best.inBandPercent() > 85, "clairvoyant " + best);
      pool.contestants()
          .forEach(
              (key, score) ->
                  assertTrue(
                      score.inBandPercent() <= best.inBandPercent(),
                      pool.number() + " " + key + " " + score + " against " + best));
    }
  }

  /** Near is told nearly right; with what is told made perfect it is right, the pool the same. */
  @Test
  void perfectChangesNothingButWhatItNames() {
    SeasonSettings wide = new SeasonSettings(1, 2, 1, Spread.WIDE, false, Set.of(), 60);
    SeasonSettings perfect =
        new SeasonSettings(1, 2, 1, Spread.WIDE, false, EnumSet.allOf(Perfect.class), 60);
    Site drawn = SiteDraw.site(wide, 1, 77);
    Site mended = SiteDraw.site(perfect, 1, 77);
    assertEquals(drawn.plant().basin(), mended.plant().basin());
    assertEquals(drawn.plant().climate(), mended.plant().climate());
    assertEquals(drawn.parties(), mended.parties());
    assertNotEquals(
        drawn.plant().basin().volumeM3(), drawn.configured().estimate().volumeM3(), "told wrong");
    assertEquals(mended.plant().basin().volumeM3(), mended.configured().estimate().volumeM3());
    assertEquals(
        mended.plant().basin().cyanuricAcidMgL(),
        mended.configured().estimate().slow().cyanuricAcidMgL().getAsDouble());
    assertEquals(50, mended.plant().instruments().orp().slopeMv());
  }

  /** The ranges that wide pools are promised to have. */
  @Test
  void wideToldIsOffWithinItsRange() {
    SeasonSettings wide = new SeasonSettings(1, 1, 1, Spread.WIDE, false, Set.of(), 60);
    double mostOff = 0;
    for (long seed = 0; seed < 30; seed++) {
      Site site = SiteDraw.site(wide, 1, seed);
      double stabiliser =
          site.configured().estimate().slow().cyanuricAcidMgL().getAsDouble()
              / site.plant().basin().cyanuricAcidMgL();
      double volume = site.configured().estimate().volumeM3() / site.plant().basin().volumeM3();
      mostOff = Math.max(mostOff, Math.abs(stabiliser - 1));
      assertTrue(Math.abs(stabiliser - 1) <= 0.4 && Math.abs(volume - 1) <= 0.15, "" + seed);
      double slopeMv = site.plant().instruments().orp().slopeMv();
      double pumpH = site.configured().control().pumpS() / 3600;
      assertTrue(slopeMv >= 25 && slopeMv <= 70, "slope " + slopeMv);
      assertTrue(pumpH > 7.9 && pumpH < 12.1, "pump " + pumpH);
    }
    assertTrue(mostOff > 0.3, "stabiliser at most off by " + mostOff);
  }
}
