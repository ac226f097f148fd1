package limnostat.season;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * What a season is.
 *
 * @param pools number of pools
 * @param days length, days
 * @param seed of everything that is drawn
 * @param family what is strange about strange pools
 * @param players who takes part, the clairvoyant in any case
 * @param habitDays days between the tests of every owner; 0: each has a habit of its own
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
    List<Player> players,
    int habitDays,
    boolean answering,
    Set<Perfect> perfect,
    double stepS) {
  static final double DAY_S = 86_400;

  public SeasonSettings {
    perfect = Set.copyOf(perfect);
    Set<Player> all = EnumSet.of(Player.CLAIRVOYANT);
    all.addAll(players);
    players = List.copyOf(all);
  }

  /** Of pools of which nothing, or all, is strange; everybody takes part. */
  public SeasonSettings(
      int pools,
      int days,
      long seed,
      Spread spread,
      boolean answering,
      Set<Perfect> perfect,
      double stepS) {
    this(
        pools,
        days,
        seed,
        spread,
        Family.ALL,
        List.of(Player.values()),
        0,
        answering,
        perfect,
        stepS);
  }

  /** The parts of a pool that are strange. */
  Set<Family> strange() {
    return spread == Spread.STRANGE ? family.parts() : Set.of();
  }

  double lengthS() {
    return days * DAY_S;
  }
}
