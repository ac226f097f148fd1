package limnostat.season;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import limnostat.actuate.Outputs;
import limnostat.plant.Pool;

/**
 * What a season of scans a second costs, and what of that is the simulated pool: the program on a
 * near pool with a test a week, then the same pool alone with the same outputs. Time is that of the
 * processor in this thread, so that other work on the machine matters little. DEVELOPERS.md has the
 * command.
 */
final class SeasonTiming {
  private static final double STEP_S = 1;

  /** A turn of the outputs: from this scan on. */
  private record Turn(long scan, Outputs outputs) {}

  private final Site site;
  private final long scans;
  private final List<Turn> turns = new ArrayList<>();

  private SeasonTiming(int days, long seed) {
    SeasonSettings season = new SeasonSettings(1, days, seed, Spread.NEAR, false, Set.of(), STEP_S);
    this.site = SiteDraw.site(season, 1, new SplittableRandom(seed).nextLong());
    this.scans = (long) (season.lengthS() / STEP_S);
  }

  /**
   * @param args length in days, 180 when left out; seed, 1 when left out
   */
  public static void main(String[] args) {
    SeasonTiming timing =
        new SeasonTiming(
            args.length > 0 ? Integer.parseInt(args[0]) : 180,
            args.length > 1 ? Long.parseLong(args[1]) : 1);
    double bothS = timing.processorS(timing::season);
    double poolS = timing.processorS(timing::poolAlone);
    System.out.printf(
        "%,d scans: %.1f s, of which the pool %.1f s, %.2f µs a scan, and the program %.1f s, %.2f"
            + " µs a scan%n",
        timing.scans,
        bothS,
        poolS,
        1e6 * poolS / timing.scans,
        bothS - poolS,
        1e6 * (bothS - poolS) / timing.scans);
  }

  private double processorS(Runnable work) {
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long before = threads.getCurrentThreadCpuTime();
    work.run();
    return (threads.getCurrentThreadCpuTime() - before) / 1e9;
  }

  private void season() {
    Pool pool = site.open();
    Program program = new Program(site.configured());
    Owner owner = new Owner(site.habitUnixS(), false);
    Outputs last = null;
    for (long i = 0; i < scans; i++) {
      double unixTimeS = site.startUnixS() + i * STEP_S;
      double elapsedS = i == 0 ? 0 : STEP_S;
      Optional<KitTest> test =
          owner.tests(false, pool.flows(), unixTimeS, elapsedS)
              ? Optional.of(site.kit().test(pool.truth()))
              : Optional.empty();
      Outputs outputs = program.step(unixTimeS, elapsedS, pool.signals(), test);
      if (!outputs.equals(last)) {
        turns.add(new Turn(i, outputs));
        last = outputs;
      }
      pool.advance(unixTimeS + STEP_S, outputs);
    }
  }

  private void poolAlone() {
    Pool pool = site.open();
    int turn = 0;
    for (long i = 0; i < scans; i++) {
      turn += turn + 1 < turns.size() && turns.get(turn + 1).scan() == i ? 1 : 0;
      pool.advance(site.startUnixS() + (i + 1) * STEP_S, turns.get(turn).outputs());
    }
  }
}
