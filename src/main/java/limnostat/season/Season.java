package limnostat.season;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import limnostat.actuate.Outputs;
import limnostat.plant.Pool;
import limnostat.plant.Truth;

/** Runs a season: every contestant on every pool. */
public final class Season {
  private final SeasonSettings settings;

  public Season(SeasonSettings settings) {
    this.settings = settings;
  }

  /**
   * Runs the season on all cores. The order in which pools finish does not affect the result.
   *
   * @param poolDone receives the number of each finished pool, on any thread
   */
  public SeasonReport run(IntConsumer poolDone) {
    return run(poolDone, Optional.empty());
  }

  /**
   * The same with a trace.
   *
   * @param trace receives state and truth of the program as CSV
   * @throws java.io.UncheckedIOException if it cannot be written
   */
  public SeasonReport run(IntConsumer poolDone, Appendable trace) {
    return run(poolDone, Optional.of(new Trace(trace)));
  }

  private SeasonReport run(IntConsumer poolDone, Optional<Trace> trace) {
    SplittableRandom seeds = new SplittableRandom(settings.seed());
    long[] poolSeeds = new long[settings.pools()];
    Arrays.setAll(poolSeeds, i -> seeds.nextLong());
    List<SeasonReport.PoolResult> pools =
        IntStream.range(0, settings.pools())
            .parallel()
            .mapToObj(
                i -> {
                  SeasonReport.PoolResult result = pool(i + 1, poolSeeds[i], trace);
                  poolDone.accept(i + 1);
                  return result;
                })
            .toList();
    return SeasonReport.of(settings, pools);
  }

  private SeasonReport.PoolResult pool(int number, long seed, Optional<Trace> trace) {
    Site site = SiteDraw.site(settings, number, seed);
    Map<Player, Score> scores = new EnumMap<>(Player.class);
    for (Player player : settings.players()) {
      Optional<Trace.Rows> rows =
          trace.filter(t -> player == Player.PROGRAM).map(t -> new Trace.Rows(site));
      scores.put(player, play(site, player, rows));
      rows.ifPresent(r -> trace.orElseThrow().add(number, r.toString()));
    }
    Score clairvoyant = scores.get(Player.CLAIRVOYANT);
    scores.replaceAll((player, score) -> score.against(clairvoyant));
    return SeasonReport.PoolResult.of(site, scores);
  }

  private Score play(Site site, Player player, Optional<Trace.Rows> rows) {
    Pool pool = site.open();
    Contestant contestant = player.enter(site, pool);
    Owner owner =
        new Owner(site.habitUnixS(), settings.answering() && contestant.asks(), site.manner());
    Tally tally = new Tally(site.band(), site.startUnixS());
    double stepS = settings.stepS();
    long steps = (long) StrictMath.floor(settings.lengthS() / stepS);
    for (long i = 0; i < steps; i++) {
      double unixTimeS = site.startUnixS() + i * stepS;
      double elapsedS = i == 0 ? 0 : stepS;
      Optional<KitTest> test =
          owner.tests(contestant.testDue(), pool.flows(), unixTimeS, elapsedS)
              ? Optional.of(site.kit().test(pool.truth()))
              : Optional.empty();
      if (test.isPresent()) {
        tally.tested();
        if (!site.configured().acid().fitted()) {
          Acid.byHand(
              pool,
              test.get().ph(),
              site.configured().control().phTarget(),
              site.configured().estimate().volumeM3());
        }
      }
      site.hands().act(pool, site.plant().basin().volumeM3(), unixTimeS, unixTimeS + stepS, test);
      Outputs outputs = contestant.step(unixTimeS, elapsedS, pool.signals(), test);
      pool.advance(unixTimeS + stepS, outputs);
      Truth truth = pool.truth();
      tally.passed(
          stepS,
          truth,
          outputs.chlorine() > 0,
          contestant.superchlorinating(),
          contestant.estimate(),
          contestant.calls());
      rows.ifPresent(
          r ->
              r.passed(
                  unixTimeS + stepS,
                  stepS,
                  truth,
                  pool.signals(),
                  contestant.outcome().orElseThrow(),
                  test));
    }
    return tally.score();
  }
}
