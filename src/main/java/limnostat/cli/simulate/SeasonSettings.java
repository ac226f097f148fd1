package limnostat.cli.simulate;

import java.util.Set;

/**
 * What a season is.
 *
 * @param pools number of pools
 * @param days length, days
 * @param seed of everything that is drawn
 * @param family what is strange about strange pools
 * @param answering whether the owner, once the probes are fitted, tests only when the program asks
 * @param perfect what has no faults
 * @param stepS time between scans, s
 */
public record SeasonSettings(
    int pools,
    int days,
    long seed,
    Spread spread,
    Family family,
    boolean answering,
    Set<Perfect> perfect,
    double stepS) {
  static final double DAY_S = 86_400;

  public SeasonSettings {
    perfect = Set.copyOf(perfect);
  }

  /** Of pools of which nothing, or all, is strange. */
  public SeasonSettings(
      int pools,
      int days,
      long seed,
      Spread spread,
      boolean answering,
      Set<Perfect> perfect,
      double stepS) {
    this(pools, days, seed, spread, Family.ALL, answering, perfect, stepS);
  }

  /** The parts of a pool that are strange. */
  Set<Family> strange() {
    return spread == Spread.STRANGE ? family.parts() : Set.of();
  }

  double lengthS() {
    return days * DAY_S;
  }
}
