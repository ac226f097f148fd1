package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import limnostat.actuate.Outputs;
import limnostat.plant.Pool;
import org.junit.jupiter.api.Test;

class RelaysTest {
  private static final double STEP_S = 30;

  /** A peer that always wants chlorine gets it with proven flow only, and never beside acid. */
  @Test
  void peersAreHeldByFlowAndAcid() {
    SeasonSettings wide = new SeasonSettings(1, 3, 1, Spread.WIDE, false, Set.of(), STEP_S);
    long seed = 0;
    Site site = SiteDraw.site(wide, 1, seed);
    while (!site.configured().acid().fitted() || site.plant().basin().ph() < 7.7) {
      site = SiteDraw.site(wide, 1, ++seed);
    }
    Pool pool = site.open();
    Relays relays = new Relays(site.configured());
    double flowS = -1;
    double sinceChlorineS = 1e9;
    double sinceAcidS = 1e9;
    int chlorineOn = 0;
    int acidOn = 0;
    for (int i = 0; i < 3 * 2880; i++) {
      double unixTimeS = site.startUnixS() + i * STEP_S;
      flowS = pool.flows() ? flowS + STEP_S : -STEP_S;
      relays.see(pool.signals(), STEP_S);
      Outputs outputs = relays.drive(1, pool.signals(), unixTimeS, STEP_S);
      if (outputs.chlorine() > 0) {
        chlorineOn++;
        assertTrue(flowS >= 60, "chlorine after " + flowS + " s of flow");
        assertTrue(sinceAcidS >= 300 - STEP_S, "chlorine " + sinceAcidS + " s after acid");
      }
      if (outputs.acid() > 0) {
        acidOn++;
        assertTrue(flowS >= 60, "acid after " + flowS + " s of flow");
        assertTrue(sinceChlorineS >= 300 - STEP_S, "acid " + sinceChlorineS + " s after chlorine");
      }
      sinceChlorineS = outputs.chlorine() > 0 ? 0 : sinceChlorineS + STEP_S;
      sinceAcidS = outputs.acid() > 0 ? 0 : sinceAcidS + STEP_S;
      assertEquals(site.configured().control().pumpWanted(unixTimeS), outputs.pumpRequest());
      pool.advance(unixTimeS + STEP_S, outputs);
    }
    assertTrue(chlorineOn > 1000 && acidOn > 3, "on " + chlorineOn + ", acid " + acidOn);
  }
}
