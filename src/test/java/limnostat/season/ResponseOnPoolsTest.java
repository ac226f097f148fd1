package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limnostat.actuate.Output;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.plant.PlantFault;
import limnostat.plant.Pool;
import limnostat.safety.Cause;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * S10 on wide simulated pools, other ones than its figures were found on: what is told of them is
 * off, outputs are too small, electrodes worn, people and weather come. A healthy one never trips;
 * a dead output and a dead probe do, within what is stated.
 */
@Tag("slow")
class ResponseOnPoolsTest {
  private static final double STEP_S = 60;
  private static final double DAY_S = 86_400;
  private static final double FAULT_DAY = 8;

  private enum Fault {
    NONE,
    OUTPUT_DEAD,
    PROBE_DEAD
  }

  /**
   * @param day when it tripped, days from the begin; 0: never
   * @param fedMgL fed from the fault to the trip, as told, mg/L
   * @param freeChlorineMgL what the pool held then, mg/L
   */
  private record Story(
      int pool,
      double day,
      Optional<Cause> cause,
      double fedMgL,
      double freeChlorineMgL,
      double highMgL) {}

  private static List<Story> stories(int pools, int days, long seed, Fault fault) {
    SeasonSettings season =
        new SeasonSettings(pools, days, seed, Spread.WIDE, false, Set.of(), STEP_S);
    SplittableRandom seeds = new SplittableRandom(seed);
    long[] poolSeeds = new long[pools];
    Arrays.setAll(poolSeeds, i -> seeds.nextLong());
    return IntStream.range(0, pools)
        .parallel()
        .mapToObj(i -> story(SiteDraw.site(season, i + 1, poolSeeds[i]), days, fault))
        .toList();
  }

  private static Story story(Site site, int days, Fault fault) {
    Pool pool = site.open();
    // At another hour of the day for each of them.
    double faultS = site.startUnixS() + (FAULT_DAY + site.number() % 8 / 8.0) * DAY_S;
    if (fault == Fault.OUTPUT_DEAD) {
      pool.inject(
          new PlantFault.OutputDead(Output.CHLORINE, new PlantFault.Span(faultS, faultS + 1e8)));
    }
    Function<Signals, Signals> probe =
        fault == Fault.PROBE_DEAD ? new DeadProbe(site, faultS) : signals -> signals;
    Owner owner = new Owner(site.habitUnixS(), false);
    ScanState state = ScanState.start(site.configured());
    double fedG = 0;
    for (double t = site.startUnixS(); t < site.startUnixS() + days * DAY_S; t += STEP_S) {
      double elapsedS = t == site.startUnixS() ? 0 : STEP_S;
      List<Command.Request> commands = new ArrayList<>();
      if (owner.tests(false, pool.flows(), t, elapsedS)) {
        KitTest test = site.kit().test(pool.truth());
        commands.add(entered(test));
        if (!site.configured().acid().fitted()) {
          Acid.byHand(pool, test.ph(), 7.4, site.configured().estimate().volumeM3());
        }
      }
      if (t < faultS) {
        fedG = state.chlorine().account().given();
      }
      ScanOutcome out =
          Scan.step(
              site.configured(),
              state,
              new ScanInputs(
                  elapsedS,
                  t,
                  true,
                  probe.apply(pool.signals()),
                  Map.of(
                      Output.CHLORINE, state.chlorine().account().requested(),
                      Output.ACID, state.acid().account().requested()),
                  false,
                  true,
                  commands));
      state = out.state();
      Optional<Cause> cause =
          Stream.of(Cause.NO_RESPONSE, Cause.ORP_FALLING)
              .filter(out.permission().active()::contains)
              .findFirst();
      if (cause.isPresent()) {
        if (cause.get() == Cause.NO_RESPONSE) {
          assertEquals(0, out.outputs().chlorine());
        }
        return new Story(
            site.number(),
            (t - site.startUnixS()) / DAY_S,
            cause,
            (state.chlorine().account().given() - fedG) / site.configured().estimate().volumeM3(),
            pool.truth().freeChlorineMgL(),
            site.configured().limits().freeChlorineHighMgL());
      }
      pool.advance(t + STEP_S, out.outputs());
    }
    return new Story(site.number(), 0, Optional.empty(), 0, pool.truth().freeChlorineMgL(), 0);
  }

  /**
   * From one moment on the input shows what it last did, with the noise of a converter: three of
   * its steps of 0.0625 mV.
   */
  private static final class DeadProbe implements Function<Signals, Signals> {
    private final Site site;
    private final double faultUnixS;
    private final Random noise;
    private double atUnixS;
    private double lastMv;

    DeadProbe(Site site, double faultUnixS) {
      this.site = site;
      this.faultUnixS = faultUnixS;
      this.noise = new Random(site.number());
      this.atUnixS = site.startUnixS();
    }

    @Override
    public Signals apply(Signals live) {
      boolean dead = atUnixS >= faultUnixS;
      atUnixS += STEP_S;
      if (!dead && live.of(Role.ORP_MV) instanceof Signal.Analog a) {
        lastMv = a.value();
      }
      if (!dead) {
        return live;
      }
      Map<Role, Signal> seen = new EnumMap<>(Role.class);
      site.configured().measure().fitted().forEach(role -> seen.put(role, live.of(role)));
      seen.put(Role.ORP_MV, new Signal.Analog(lastMv + 0.19 * noise.nextGaussian()));
      return Signals.of(seen);
    }
  }

  private static Command.Request entered(KitTest test) {
    return new Command.Request(
        Optional.empty(),
        "test_result",
        "owner",
        "{}",
        new Command.Test(
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, test.freeChlorineMgL())
                .with(Tested.PH, test.ph())
                .with(Tested.CYANURIC_ACID, test.cyanuricAcidMgL())));
  }

  @Test
  void aHealthyPoolNeverTrips() {
    List<Story> all = new ArrayList<>(stories(12, 30, 11, Fault.NONE));
    all.addAll(stories(4, 30, 12, Fault.NONE));
    assertEquals(List.of(), all.stream().filter(s -> s.day() > 0).toList());
  }

  /** Free chlorine goes within days, and what is fed goes nowhere: told within 6 days, 12 mg/L. */
  @Test
  void aDeadOutputTrips() {
    List<Story> all = stories(12, 16, 11, Fault.OUTPUT_DEAD);
    for (Story story : all) {
      assertEquals(Optional.of(Cause.ORP_FALLING), story.cause(), story::toString);
      assertTrue(story.day() > FAULT_DAY && story.day() < FAULT_DAY + 7, story::toString);
      assertTrue(story.fedMgL() > 3 && story.fedMgL() < 16, story::toString);
    }
  }

  /**
   * All that is fed arrives. Where pH rises the setpoint does, and a still ORP falls behind it;
   * dead above the setpoint less and less is fed, and 30 h of it tell.
   */
  @Test
  void aDeadProbeTripsBeforeThePoolIsOverdosed() {
    List<Story> all = stories(12, 16, 11, Fault.PROBE_DEAD);
    for (Story story : all) {
      assertTrue(story.cause().isPresent(), story::toString);
      assertTrue(story.day() > FAULT_DAY && story.day() < FAULT_DAY + 5, story::toString);
      assertTrue(story.fedMgL() >= 1 && story.fedMgL() < 6, story::toString);
      assertTrue(story.freeChlorineMgL() < story.highMgL() + 2, story::toString);
      assertTrue(story.freeChlorineMgL() > 0.5, story::toString);
    }
    long flat =
        all.stream().filter(story -> story.cause().equals(Optional.of(Cause.NO_RESPONSE))).count();
    assertTrue(flat >= all.size() - 2, flat + " flat");
  }
}
