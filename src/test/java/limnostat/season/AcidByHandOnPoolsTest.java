package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import limnostat.actuate.Output;
import limnostat.estimate.Product;
import limnostat.plant.Pool;
import limnostat.safety.Cause;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import org.junit.jupiter.api.Test;

/**
 * Acid that a person pours into wide simulated pools that have an acid feeder: the pool's own
 * chemistry, mixing and electrode. Poured and not entered it looks like a fault of the electrode.
 */
class AcidByHandOnPoolsTest {
  private static final double STEP_S = 60;
  private static final double DAY_S = 86_400;
  private static final double DAYS = 4;

  /** From alkalinity 100 and pH 7.8 to 7.18: water-chemistry section 8. */
  private static final double ML_M3 = 20;

  private static List<Site> sites() {
    SeasonSettings season = new SeasonSettings(40, 4, 5, Spread.WIDE, false, Set.of(), STEP_S);
    SplittableRandom seeds = new SplittableRandom(5);
    List<Site> sites = new ArrayList<>();
    for (int i = 1; i <= 40; i++) {
      Site site = SiteDraw.site(season, i, seeds.nextLong());
      if (site.configured().acid().fitted()) {
        sites.add(site);
      }
    }
    return sites;
  }

  private static Command.Request entered(double volumeM3, double agoS) {
    return new Command.Request(
        Optional.empty(),
        "addition",
        "owner",
        "{}",
        new Command.Add(
            Product.MURIATIC_ACID,
            ML_M3 * volumeM3,
            OptionalDouble.empty(),
            OptionalDouble.of(agoS),
            OptionalDouble.empty()));
  }

  /**
   * Pours once water has flowed for two hours on the third day.
   *
   * @param lateS how long afterwards it is entered, s; infinite: never
   * @return whether pH was unexplained, or acid unanswered, a day after it was entered or before
   */
  private static boolean doubted(Site site, double lateS) {
    Pool pool = site.open();
    ScanState state = ScanState.start(site.configured());
    double volumeM3 = site.configured().estimate().volumeM3();
    double pouredS = Double.POSITIVE_INFINITY;
    boolean entered = false;
    boolean doubted = false;
    for (double t = site.startUnixS(); t < site.startUnixS() + DAYS * DAY_S; t += STEP_S) {
      if (pouredS > t && t > site.startUnixS() + 2 * DAY_S && state.measure().flowS() > 7200) {
        pool.pourAcid(ML_M3 * volumeM3);
        pouredS = t;
      }
      List<Command.Request> commands = new ArrayList<>();
      if (!entered && t >= pouredS + lateS) {
        commands.add(entered(volumeM3, t - pouredS));
        entered = true;
        doubted = false;
      }
      ScanOutcome out =
          Scan.step(
              site.configured(),
              state,
              new ScanInputs(
                  t == site.startUnixS() ? 0 : STEP_S,
                  t,
                  true,
                  pool.signals(),
                  Map.of(
                      Output.CHLORINE, state.chlorine().account().requested(),
                      Output.ACID, state.acid().account().requested()),
                  false,
                  true,
                  commands));
      state = out.state();
      doubted |=
          commands.isEmpty()
              && (out.permission().active().contains(Cause.PH_UNEXPLAINED)
                  || out.permission().active().contains(Cause.ACID_NO_RESPONSE));
      pool.advance(t + STEP_S, out.outputs());
    }
    assertTrue(pouredS < Double.POSITIVE_INFINITY, "site " + site.number() + " never flowed");
    return doubted;
  }

  @Test
  void acidThatIsEnteredIsNoFaultAndAcidThatIsNotIs() {
    List<Site> sites = sites();
    assertTrue(sites.size() >= 8, sites.size() + " sites");
    int never = 0;
    for (Site site : sites) {
      never += doubted(site, Double.POSITIVE_INFINITY) ? 1 : 0;
      assertEquals(false, doubted(site, 0), "site " + site.number() + ", entered at once");
      assertEquals(
          false, doubted(site, 3 * 3600), "site " + site.number() + ", entered three hours later");
    }
    System.out.println(
        "acid by hand that nobody entered is doubted in " + never + " of " + sites.size());
    assertTrue(never > sites.size() / 2, never + " of " + sites.size());
  }
}
