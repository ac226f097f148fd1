package limnostat.season;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import limnostat.season.SeasonReport.Figure;
import limnostat.season.SeasonReport.PoolResult;

/**
 * One contestant by what people are promised: the hours from 9 to 21, when they bathe.
 *
 * @param winnablePools pools that the clairvoyant holds for {@link #WINNABLE_PERCENT} of these
 *     hours
 * @param ofClairvoyantPercent time in band against the clairvoyant's, over winnable pools, in these
 *     hours
 * @param belowOnePercent share of these hours below 1 mg/L, over all pools as all that follow
 * @param silentHours longest time below 0.5 mg/L with no alarm of high priority that speaks of it,
 *     h; absent for one that has no alarms
 * @param coveredPercent truth within two standard deviations of the estimate; absent without one
 * @param highestOverBand highest free chlorine over the band's upper edge
 * @param tests water tests made
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Goals(
    int winnablePools,
    Figure ofClairvoyantPercent,
    Figure belowOnePercent,
    Figure silentHours,
    Figure coveredPercent,
    Figure highestOverBand,
    Figure tests) {
  static final double WINNABLE_PERCENT = 90;

  static Goals of(List<PoolResult> pools, String key) {
    String clairvoyant = Player.CLAIRVOYANT.key();
    List<PoolResult> winnable =
        pools.stream()
            .filter(
                p -> p.contestants().get(clairvoyant).daytime().inBandPercent() >= WINNABLE_PERCENT)
            .toList();
    return new Goals(
        winnable.size(),
        figure(winnable, key, (p, s) -> s.daytime().ofClairvoyantPercent(), false),
        figure(pools, key, (p, s) -> s.daytime().belowOnePercent(), true),
        figure(pools, key, (p, s) -> s.silentHours(), true),
        figure(pools, key, (p, s) -> s.estimateCoveredPercent(), false),
        figure(pools, key, (p, s) -> s.highestMgL() / p.band().highMgL(), true),
        figure(pools, key, (p, s) -> (double) s.tests(), true));
  }

  private interface Of {
    Double value(PoolResult pool, Score score);
  }

  private static Figure figure(List<PoolResult> pools, String key, Of of, boolean muchIsBad) {
    List<Double> sorted =
        pools.stream()
            .map(p -> of.value(p, p.contestants().get(key)))
            .filter(Objects::nonNull)
            .sorted()
            .toList();
    if (sorted.isEmpty()) {
      return null;
    }
    int count = sorted.size();
    double mean = sorted.stream().mapToDouble(v -> v).sum() / count;
    double median = (sorted.get((count - 1) / 2) + sorted.get(count / 2)) / 2;
    Function<List<Double>, Double> worst = v -> v.get(muchIsBad ? count - 1 : 0);
    return new Figure(mean, median, worst.apply(sorted));
  }
}
