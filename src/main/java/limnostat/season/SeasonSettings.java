package limnostat.season;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * The settings of a season.
 *
 * @param pools number of pools
 * @param days length, days
 * @param seed seed for everything that is drawn
 * @param family in what way strange pools are strange
 * @param players the participants; the clairvoyant always takes part
 * @param habitDays days between the tests of every owner; 0: each owner has a different habit
 * @param answering whether the owner, once the probes are fitted, tests only when the program asks
 * @param perfect what is made free of errors
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

  /** For pools that are strange in nothing, or in everything; all participants take part. */
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

  /** The aspects in which a pool is strange. */
  Set<Family> strange() {
    return spread == Spread.STRANGE ? family.parts() : Set.of();
  }

  double lengthS() {
    return days * DAY_S;
  }
}
