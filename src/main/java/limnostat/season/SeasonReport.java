package limnostat.season;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.cfg.EnumFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import limnostat.plant.DoserSettings;
import limnostat.water.Orp;

/**
 * The results of a season.
 *
 * @param summary by contestant
 * @param goals by contestant
 */
public record SeasonReport(
    SeasonSettings season,
    List<PoolResult> pools,
    Map<String, Summary> summary,
    Map<String, Goals> goals) {
  /**
   * A pool is a fair test if the clairvoyant keeps it in the band for this share of the time, %.
   */
  static final double FAIR_PERCENT = 90;

  /**
   * One pool.
   *
   * @param volumeM3 true volume, m³
   * @param cyanuricAcidMgL true stabiliser at the start, mg/L
   * @param feeder type of chlorine feeder
   * @param demandMgLDay true loss near the target, mg/L per day
   * @param outputOverDemand ratio of true output to that loss, both within the pump's hours
   * @param traits what is strange about it
   * @param electrodeOffsetMv offset from the program's initial level, mV
   */
  record PoolResult(
      int number,
      double volumeM3,
      double cyanuricAcidMgL,
      String feeder,
      boolean acidFeeder,
      double pumpHours,
      double demandMgLDay,
      double outputOverDemand,
      double electrodeOffsetMv,
      double electrodeSlopeMv,
      double targetMgL,
      Band band,
      List<String> traits,
      Map<String, Score> contestants) {

    static PoolResult of(Site site, Map<Player, Score> scores) {
      DoserSettings doser = site.plant().feeders().chlorine();
      double volumeM3 = site.plant().basin().volumeM3();
      double pumpHours = site.configured().control().pumpS() / 3600;
      double demand = site.survey().demandMgLDay();
      var orp = site.plant().instruments().orp();
      Map<String, Score> byKey = new LinkedHashMap<>();
      scores.forEach((player, score) -> byKey.put(player.key(), score));
      return new PoolResult(
          site.number(),
          volumeM3,
          site.plant().basin().cyanuricAcidMgL(),
          doser instanceof DoserSettings.Liquid ? "liquid" : "salt_cell",
          site.configured().acid().fitted(),
          pumpHours,
          demand,
          Clairvoyant.trueOutputGH(doser) * pumpHours / volumeM3 / demand,
          orp.levelMv() + orp.offsetMv() - Orp.LEVEL_MV,
          orp.slopeMv(),
          site.configured().control().freeChlorineTargetMgL(),
          site.band(),
          site.traits(),
          byKey);
    }

    boolean fair() {
      return contestants.get(Player.CLAIRVOYANT.key()).inBandPercent() >= FAIR_PERCENT;
    }
  }

  /**
   * The figures over all pools.
   *
   * @param worst over the pools that the clairvoyant keeps in the band for {@link #FAIR_PERCENT};
   *     absent if there is none
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Figure(double mean, double median, Double worst) {}

  /** One contestant's figures; those for the estimate are absent without one. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Summary(
      Figure inBandPercent,
      Figure ofClairvoyantPercent,
      Figure belowOnePercent,
      Figure belowSanitisingPercent,
      Figure aboveTenHours,
      Figure highestMgL,
      Figure fedOfClairvoyantPercent,
      Figure switchingsPerDay,
      Figure tests,
      Figure estimateErrorMgL,
      Figure estimateCoveredPercent) {}

  static SeasonReport of(SeasonSettings season, List<PoolResult> pools) {
    Map<String, Summary> summary = new LinkedHashMap<>();
    Map<String, Goals> goals = new LinkedHashMap<>();
    for (Player player : season.players()) {
      summary.put(player.key(), summary(pools, player.key()));
      goals.put(player.key(), Goals.of(pools, player.key()));
    }
    return new SeasonReport(season, pools, summary, goals);
  }

  private static Summary summary(List<PoolResult> pools, String key) {
    boolean estimates = pools.get(0).contestants().get(key).estimateErrorMgL() != null;
    return new Summary(
        least(pools, key, Score::inBandPercent),
        least(pools, key, Score::ofClairvoyantPercent),
        most(pools, key, Score::belowOnePercent),
        most(pools, key, Score::belowSanitisingPercent),
        most(pools, key, Score::aboveTenHours),
        most(pools, key, Score::highestMgL),
        most(pools, key, Score::fedOfClairvoyantPercent),
        most(pools, key, Score::switchingsPerDay),
        most(pools, key, Score::tests),
        estimates ? most(pools, key, Score::estimateErrorMgL) : null,
        estimates ? least(pools, key, Score::estimateCoveredPercent) : null);
  }

  /** A figure for which low is bad. */
  private static Figure least(List<PoolResult> pools, String key, ToDoubleFunction<Score> of) {
    return figure(pools, key, of, values -> values.get(0));
  }

  /** A figure for which high is bad. */
  private static Figure most(List<PoolResult> pools, String key, ToDoubleFunction<Score> of) {
    return figure(pools, key, of, values -> values.get(values.size() - 1));
  }

  private static Figure figure(
      List<PoolResult> pools,
      String key,
      ToDoubleFunction<Score> of,
      Function<List<Double>, Double> worst) {
    double[] all =
        pools.stream().mapToDouble(p -> of.applyAsDouble(p.contestants().get(key))).toArray();
    List<Double> fair = new ArrayList<>();
    for (PoolResult pool : pools) {
      if (pool.fair()) {
        fair.add(of.applyAsDouble(pool.contestants().get(key)));
      }
    }
    fair.sort(null);
    double sum = 0;
    for (double value : all) {
      sum += value;
    }
    Arrays.sort(all);
    double median = (all[(all.length - 1) / 2] + all[all.length / 2]) / 2;
    return new Figure(sum / all.length, median, fair.isEmpty() ? null : worst.apply(fair));
  }

  /** One JSON document with the figures of the table and a description of the pools. */
  public String json() throws JsonProcessingException {
    return JsonMapper.builder()
        .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
        .enable(SerializationFeature.INDENT_OUTPUT)
        .enable(EnumFeature.WRITE_ENUMS_TO_LOWERCASE)
        .build()
        .writeValueAsString(this);
  }

  /** The table for people, line by line. */
  public List<String> lines() {
    return SeasonTable.lines(this);
  }
}
