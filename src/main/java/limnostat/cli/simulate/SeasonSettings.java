package limnostat.cli.simulate;

import java.util.Set;

/**
 * What a season is.
 *
 * @param pools number of pools
 * @param days length, days
 * @param seed of everything that is drawn
 * @param answering whether the owner, once the probes are fitted, tests only when the program asks
 * @param perfect what has no faults
 * @param stepS time between scans, s
 */
public record SeasonSettings(
    int pools,
    int days,
    long seed,
    Spread spread,
    boolean answering,
    Set<Perfect> perfect,
    double stepS) {
  static final double DAY_S = 86_400;

  public SeasonSettings {
    perfect = Set.copyOf(perfect);
  }

  double lengthS() {
    return days * DAY_S;
  }
}
