package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.UnaryOperator;

/**
 * Several beliefs side by side, one for each slope that an ORP electrode may have, weighed by how
 * well each foresaw what was measured.
 *
 * <p>One filter with the slope among its states is biased: slope, free chlorine and gain trade
 * against each other along a curve, and every correction steps along its tangent (seen with a truth
 * made by the filter's own model: whatever the true slope, the estimate ran to its upper bound).
 * With the slope given, little is left that is not linear.
 *
 * @param hypotheses from the least slope to the largest, at least one
 */
public record Mixture(List<Hypothesis> hypotheses) {
  /** Slopes are believable about this one, mV a decade (30–90 is plausible [practice]). */
  static final double SLOPE_MV = 47;

  /** From one slope to the next, and how many there are to either side (engineering judgement). */
  private static final double SLOPE_STEP = 1.25;

  private static final int STEPS = 3;

  /** Standard deviation of ln slope before anything was measured (engineering judgement). */
  private static final double SLOPE_SD = 0.35;

  /**
   * What was learned of the slope fades with this time constant, days, as a slope does not stay
   * (engineering judgement).
   */
  private static final double FORGET_DAYS = 40;

  /**
   * Share of a likelihood that counts: errors of the model last longer than a reading (engineering
   * judgement).
   */
  private static final double TEMPER = 0.5;

  /** What is read back from a ledger is checked as a stranger's would be. */
  public Mixture {
    hypotheses = List.copyOf(hypotheses);
    if (hypotheses.isEmpty()) {
      throw new IllegalArgumentException("no hypothesis");
    }
    int size = hypotheses.get(0).belief.size();
    if (hypotheses.stream().anyMatch(h -> h.belief.size() != size)) {
      throw new IllegalArgumentException("beliefs of different sizes");
    }
  }

  /**
   * One slope, and what follows from it.
   *
   * @param slopeMv the slope, mV a decade
   * @param belief what is believed of all else if that is so
   * @param logWeight ln of its weight, up to a constant that all share
   */
  public record Hypothesis(double slopeMv, Gaussian belief, double logWeight) {
    public Hypothesis {
      if (!(slopeMv > 0 && slopeMv < Double.POSITIVE_INFINITY) || !Double.isFinite(logWeight)) {
        throw new IllegalArgumentException(
            "no hypothesis: slope " + slopeMv + " mV, ln weight " + logWeight);
      }
    }

    private Hypothesis with(Gaussian next) {
      return new Hypothesis(slopeMv, next, logWeight);
    }
  }

  /**
   * All of them corrected by a measurement.
   *
   * @param innovation measurement less its expectation by all of them together
   * @param innovationSd what that may scatter by
   */
  record Correction(Mixture mixture, double innovation, double innovationSd) {
    /** The same with every belief kept to what it can be. */
    Correction kept(UnaryOperator<Gaussian> within) {
      return new Correction(mixture.each(h -> within.apply(h.belief())), innovation, innovationSd);
    }
  }

  /** The same belief for every slope. */
  static Mixture start(Gaussian belief) {
    List<Hypothesis> all = new ArrayList<>();
    for (int i = -STEPS; i <= STEPS; i++) {
      double lnFactor = i * StrictMath.log(SLOPE_STEP);
      all.add(new Hypothesis(SLOPE_MV * StrictMath.exp(lnFactor), belief, prior(lnFactor)));
    }
    return new Mixture(all);
  }

  /** ln of the weight that a slope has before anything was measured. */
  private static double prior(double lnFactor) {
    double z = lnFactor / SLOPE_SD;
    return -z * z / 2;
  }

  /** Other beliefs, each of the same weight as before. */
  Mixture each(Function<Hypothesis, Gaussian> next) {
    return new Mixture(hypotheses.stream().map(h -> h.with(next.apply(h))).toList());
  }

  /**
   * Time passes: weights go back towards those that they began with.
   *
   * @param step how a belief moves on
   */
  Mixture predicted(UnaryOperator<Gaussian> step, double days) {
    double kept = StrictMath.exp(-days / FORGET_DAYS);
    List<Hypothesis> next = new ArrayList<>(hypotheses.size());
    for (Hypothesis h : hypotheses) {
      double prior = prior(StrictMath.log(h.slopeMv / SLOPE_MV));
      double logWeight = prior + (h.logWeight - prior) * kept;
      next.add(new Hypothesis(h.slopeMv, step.apply(h.belief), logWeight));
    }
    return new Mixture(next);
  }

  /**
   * One measurement corrects every belief, and the weights by its Student-t likelihood.
   *
   * @param freedom its degrees of freedom; see {@link Gaussian#correct}
   * @param sensor what it is measured by if a hypothesis is true
   */
  Correction corrected(
      double z, double variance, double freedom, Function<Hypothesis, Gaussian.Sensor> sensor) {
    List<Hypothesis> next = new ArrayList<>(hypotheses.size());
    double[] weight = weights();
    double innovation = 0;
    double square = 0;
    double best = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < weight.length; i++) {
      Hypothesis h = hypotheses.get(i);
      Gaussian.Correction c = h.belief.correct(z, variance, freedom, sensor.apply(h));
      double s = c.innovationSd() * c.innovationSd();
      double misfit = c.innovation() * c.innovation() / s;
      double logLikelihood =
          -StrictMath.log(s) / 2 - (freedom + 1) / 2 * StrictMath.log(1 + misfit / freedom);
      double logWeight = h.logWeight + TEMPER * logLikelihood;
      innovation += weight[i] * c.innovation();
      square += weight[i] * (s + c.innovation() * c.innovation());
      next.add(new Hypothesis(h.slopeMv, c.belief(), logWeight));
      best = Math.max(best, logWeight);
    }
    double scale = best;
    next.replaceAll(h -> new Hypothesis(h.slopeMv, h.belief, h.logWeight - scale));
    return new Correction(
        new Mixture(next), innovation, StrictMath.sqrt(square - innovation * innovation));
  }

  /** Their weights, with a sum of 1. */
  double[] weights() {
    double[] weight = new double[hypotheses.size()];
    double best = Double.NEGATIVE_INFINITY;
    for (Hypothesis h : hypotheses) {
      best = Math.max(best, h.logWeight);
    }
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      weight[i] = StrictMath.exp(hypotheses.get(i).logWeight - best);
      sum += weight[i];
    }
    for (int i = 0; i < weight.length; i++) {
      weight[i] /= sum;
    }
    return weight;
  }

  /** One belief with the mean and the covariance of all: Σ w (P + (m − m̄)(m − m̄)ᵀ). */
  Gaussian together() {
    double[] weight = weights();
    int n = hypotheses.get(0).belief.size();
    double[] mean = new double[n];
    for (int k = 0; k < weight.length; k++) {
      double[] m = hypotheses.get(k).belief.mean();
      for (int i = 0; i < n; i++) {
        mean[i] += weight[k] * m[i];
      }
    }
    double[] covariance = new double[n * n];
    for (int k = 0; k < weight.length; k++) {
      Gaussian b = hypotheses.get(k).belief;
      for (int i = 0; i < n; i++) {
        double off = b.mean()[i] - mean[i];
        for (int j = 0; j < n; j++) {
          covariance[i * n + j] +=
              weight[k] * (b.covariance()[i * n + j] + off * (b.mean()[j] - mean[j]));
        }
      }
    }
    return new Gaussian(mean, covariance);
  }
}
