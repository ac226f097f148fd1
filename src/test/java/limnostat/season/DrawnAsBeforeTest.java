package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.plant.Pool;
import limnostat.plant.Truth;
import org.junit.jupiter.api.Test;

/**
 * The near and the wide pools are those that every figure of this program was measured on: what is
 * added for others must not move a bit of them.
 */
class DrawnAsBeforeTest {
  private static final double STEP_S = 60;
  private static final int DAYS = 4;

  /** Truth and signals of each step, tests of each day, on half duty within the pump's hours. */
  private static String digest(Spread spread) {
    SeasonSettings season = new SeasonSettings(3, DAYS, 1, spread, false, Set.of(), STEP_S);
    long hash = 1;
    for (int number = 1; number <= 3; number++) {
      Site site = SiteDraw.site(season, number, 1000 + number);
      Pool pool = site.open();
      for (long step = 0; step < DAYS * 1440; step++) {
        double unixTimeS = site.startUnixS() + step * STEP_S;
        boolean pump = site.configured().control().pumpWanted(unixTimeS);
        pool.advance(unixTimeS + STEP_S, new Outputs(pump && step % 20 < 10 ? 1 : 0, 0, pump));
        Truth truth = pool.truth();
        for (double value :
            new double[] {
              truth.freeChlorineMgL(),
              truth.meanFreeChlorineMgL(),
              truth.hoclMgL(),
              truth.ph(),
              truth.waterC(),
              truth.saltMgL()
            }) {
          hash = 31 * hash + Double.hashCode(value);
        }
        // in their order, not in that of the set, which differs between processes
        for (Role role : Role.values()) {
          if (site.configured().measure().fitted().contains(role)) {
            hash = 31 * hash + bits(pool.signals().of(role));
          }
        }
        if (step % 1440 == 900) {
          hash = 31 * hash + site.kit().test(truth).toString().hashCode();
        }
      }
      for (double survey : site.survey().lossMgL()) {
        hash = 31 * hash + Double.hashCode(survey);
      }
      hash = 31 * hash + site.parties().toString().hashCode();
      hash = 31 * hash + site.habitUnixS().toString().hashCode();
      hash = 31 * hash + Double.hashCode(site.configured().estimate().volumeM3());
      hash = 31 * hash + Double.hashCode(site.configured().chlorine().caps().ratePerH());
    }
    return Long.toHexString(hash);
  }

  private static long bits(Signal signal) {
    return signal instanceof Signal.Analog analog
        ? Double.doubleToLongBits(analog.value())
        : signal instanceof Signal.Contact contact && contact.closed() ? 1 : 0;
  }

  @Test
  void nearAndWidePoolsAreTheSameToTheBit() {
    assertEquals(
        "near 178aff3b5eb873bc wide 4c0cf58b3779ee5c",
        String.format(
            Locale.ROOT,
            "near %s wide %s",
            Stream.of(Spread.NEAR, Spread.WIDE).map(DrawnAsBeforeTest::digest).toArray()));
  }
}
