package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;

/**
 * How certain it is that there is chlorine in the water. It depends on the belief alone, so it is
 * calculated when the belief changes and not on every scan.
 *
 * @param sdShare relative deviation of free chlorine
 * @param gone probability that free chlorine is below the sanitising minimum, 0–1
 * @param goneByBalance the same by doses and tests alone, ignoring ORP
 * @param mostByBalanceMgL level that free chlorine is below with a probability of 0.95, by doses
 *     and tests alone, mg/L
 * @param levels levels that the true free chlorine is below with {@link #PROBABILITIES}, as shares
 *     of the estimate
 */
public record Residual(
    double sdShare,
    double gone,
    double goneByBalance,
    double mostByBalanceMgL,
    List<Double> levels) {
  /**
   * Least free chlorine that counts as sanitising, mg/L: the minimum of public pools, 22 CCR 65529
   * (California).
   */
  public static final double MINIMUM_MG_L = 1;

  /** Probabilities that the truth is below the levels. */
  public static final List<Double> PROBABILITIES = List.of(0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95);

  /** The normal distribution's quantile of 0.95. */
  private static final double MOST_SD = 1.645;

  public Residual {
    levels = List.copyOf(levels);
  }

  static Residual of(Mixture mixture, Gaussian together) {
    double about = StrictMath.exp(together.mean()[PoolModel.LN_FREE_CHLORINE]);
    List<Double> levels = new ArrayList<>();
    for (double level : mixture.freeChlorineMgL(PROBABILITIES, together)) {
      levels.add(level / about);
    }
    return new Residual(
        mixture.freeChlorineSdMgL(about) / about,
        mixture.below(MINIMUM_MG_L),
        mixture.byBalance().below(PoolModel.LN_FREE_CHLORINE, StrictMath.log(MINIMUM_MG_L)),
        StrictMath.exp(
            mixture.byBalance().mean()[PoolModel.LN_FREE_CHLORINE]
                + MOST_SD
                    * StrictMath.sqrt(mixture.byBalance().variance(PoolModel.LN_FREE_CHLORINE))),
        levels);
  }
}
