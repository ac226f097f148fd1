package limnostat.season;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import limnostat.season.SeasonReport.Figure;
import limnostat.season.SeasonReport.PoolResult;

/**
 * One contestant's results against the goals: the hours from 9 to 21, when people bathe.
 *
 * @param winnablePools pools that the clairvoyant keeps in the band for {@link #WINNABLE_PERCENT}
 *     of these hours
 * @param ofClairvoyantPercent time in the band as a percentage of the clairvoyant's, in these
 *     hours, over winnable pools
 * @param belowOnePercent share of these hours below 1 mg/L; this figure and all that follow are
 *     over all pools
 * @param silentHours longest time below 0.5 mg/L without an alarm of high priority that reports it,
 *     h; absent for a contestant without alarms
 * @param coveredPercent share of the time in which the truth is within two standard deviations of
 *     the estimate; absent without an estimate
 * @param highestOverBand highest free chlorine as a ratio to the band's upper edge
 * @param tests number of water tests
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
