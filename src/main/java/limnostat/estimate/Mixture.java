package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;

/**
 * Several beliefs side by side, one for each electrode hypothesis ({@link Electrode}). Each is
 * weighted by how well it predicted the measurements: ORP, and people's tests.
 *
 * <p>One filter with the slope among its states is biased: slope, free chlorine and gain trade off
 * along a curve, and every correction steps along its tangent. And one figure for how far ORP can
 * be trusted is wrong for most electrodes. With both given, little is left that is non-linear.
 *
 * @param hypotheses at least one
 */
public record Mixture(List<Hypothesis> hypotheses) {
  /**
   * What ORP says about the electrode fades over this many days, since its error stays the same all
   * along. Tests are few, and their evidence lasts longer (engineering judgement).
   */
  private static final double ORP_FORGET_DAYS = 4;

  private static final double TEST_FORGET_DAYS = 60;

  /**
   * Share of the log-likelihood of ORP that counts, since successive readings have nearly the same
   * error (engineering judgement).
   */
  private static final double ORP_TEMPER = 0.1;

  /** Lower limit of ln of a weight relative to the best: no electrode is ruled out entirely. */
  private static final double ORP_LEAST = -4;

  private static final double TEST_LEAST = -6;

  /**
   * Levels of equal probability are found on this many steps, over this many deviations to each
   * side.
   */
  private static final int GRID = 16;

  private static final double GRID_SD = 3;

  /** A variance of ln F above this only says that nothing is known (judgement). */
  private static final double MOST_VARIANCE = 0.5;

  /** Data read back from a ledger is checked like untrusted input. */
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
   * One electrode hypothesis, and what follows from it.
   *
   * @param electrode the assumed electrode
   * @param belief the belief about everything else on that assumption
   * @param byOrp ln of its weight by ORP, up to a common constant
   * @param byTests the same by tests
   */
  public record Hypothesis(Electrode electrode, Gaussian belief, double byOrp, double byTests) {
    public Hypothesis {
      if (!Double.isFinite(byOrp) || !Double.isFinite(byTests)) {
        throw new IllegalArgumentException("no weight: " + byOrp + ", " + byTests);
      }
    }

    private Hypothesis with(Gaussian next) {
      return new Hypothesis(electrode, next, byOrp, byTests);
    }

    double lnWeight() {
      return electrode.lnPrior() + byOrp + byTests;
    }
  }

  /** Source of evidence for a weight. */
  enum Evidence {
    ORP,
    TEST
  }

  /**
   * The mixture after a correction by a measurement.
   *
   * @param innovation measurement minus its expectation by all hypotheses together
   * @param innovationSd expected standard deviation of that
   */
  record Correction(Mixture mixture, double innovation, double innovationSd) {}

  /** The same belief for every electrode. */
  static Mixture start(Function<Electrode, Gaussian> belief) {
    return new Mixture(
        Electrode.all().stream().map(e -> new Hypothesis(e, belief.apply(e), 0, 0)).toList());
  }

  /** The same weights with new beliefs. */
  Mixture each(Function<Hypothesis, Gaussian> next) {
    return new Mixture(hypotheses.stream().map(h -> h.with(next.apply(h))).toList());
  }

  /**
   * Time passes: the weights return towards their initial values.
   *
   * @param step prediction of a belief
   */
  Mixture predicted(Function<Hypothesis, Gaussian> step, double days) {
    double orpKept = StrictMath.exp(-days / ORP_FORGET_DAYS);
    double testKept = StrictMath.exp(-days / TEST_FORGET_DAYS);
    List<Hypothesis> next = new ArrayList<>(hypotheses.size());
    for (Hypothesis h : hypotheses) {
      next.add(new Hypothesis(h.electrode, step.apply(h), h.byOrp * orpKept, h.byTests * testKept));
    }
    return new Mixture(next);
  }

  /**
   * One measurement under a hypothesis.
   *
   * @param z the measurement
   * @param variance its variance
   * @param freedom degrees of freedom of its likelihood; see {@link Gaussian#correct}
   * @param prior the belief to correct: that of the hypothesis, or a less certain version of it
   */
  record Reading(
      double z, double variance, double freedom, Gaussian.Sensor sensor, Gaussian prior) {}

  /**
   * Corrects every belief by one measurement, and the weights by its Student-t likelihood.
   *
   * @param reading the measurement under a hypothesis
   * @param within limits a belief to its possible range
   */
  Correction corrected(
      Evidence evidence,
      Function<Hypothesis, Reading> reading,
      BiFunction<Hypothesis, Gaussian, Gaussian> within) {
    int n = hypotheses.size();
    List<Hypothesis> next = new ArrayList<>(n);
    double[] weight = weights();
    double[] likelihood = new double[n];
    double best = Double.NEGATIVE_INFINITY;
    double innovation = 0;
    double square = 0;
    for (int i = 0; i < n; i++) {
      Hypothesis h = hypotheses.get(i);
      Reading r = reading.apply(h);
      Gaussian.Correction c = r.prior.correct(r.z, r.variance, r.freedom, r.sensor);
      double s = h.belief.varianceOf(r.sensor) + r.variance;
      double misfit = c.innovation() * c.innovation() / s;
      likelihood[i] =
          -StrictMath.log(s) / 2 - (r.freedom + 1) / 2 * StrictMath.log(1 + misfit / r.freedom);
      innovation += weight[i] * c.innovation();
      square += weight[i] * (s + c.innovation() * c.innovation());
      next.add(h.with(within.apply(h, c.belief())));
      double by =
          switch (evidence) {
            case ORP -> h.byOrp + ORP_TEMPER * likelihood[i];
            case TEST -> h.byTests + likelihood[i];
          };
      likelihood[i] = by;
      best = Math.max(best, by);
    }
    for (int i = 0; i < n; i++) {
      Hypothesis h = next.get(i);
      double by = likelihood[i] - best;
      next.set(
          i,
          switch (evidence) {
            case ORP -> new Hypothesis(h.electrode, h.belief, Math.max(ORP_LEAST, by), h.byTests);
            case TEST -> new Hypothesis(h.electrode, h.belief, h.byOrp, Math.max(TEST_LEAST, by));
          });
    }
    return new Correction(
        new Mixture(next),
        innovation,
        StrictMath.sqrt(Math.max(0, square - innovation * innovation)));
  }

  /** The weights, with a sum of 1. */
  public double[] weights() {
    double[] weight = new double[hypotheses.size()];
    double best = Double.NEGATIVE_INFINITY;
    for (Hypothesis h : hypotheses) {
      best = Math.max(best, h.lnWeight());
    }
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      weight[i] = StrictMath.exp(hypotheses.get(i).lnWeight() - best);
      sum += weight[i];
    }
    for (int i = 0; i < weight.length; i++) {
      weight[i] /= sum;
    }
    return weight;
  }

  /** The belief without ORP, from doses, tests and the calendar. */
  Gaussian byBalance() {
    for (Hypothesis h : hypotheses) {
      if (h.electrode.mute()) {
        return h.belief;
      }
    }
    throw new IllegalStateException("no hypothesis without ORP");
  }

  /** Weight of the hypothesis that ORP says nothing, 0–1. */
  public double muteWeight() {
    double[] weight = weights();
    double mute = 0;
    for (int i = 0; i < weight.length; i++) {
      mute += hypotheses.get(i).electrode.mute() ? weight[i] : 0;
    }
    return mute;
  }

  /**
   * One belief with the mean and the covariance of the whole mixture: Σ w (P + (m − m̄)(m − m̄)ᵀ).
   */
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

  /**
   * Levels that the true free chlorine is below with the given probabilities, mg/L.
   *
   * @param probabilities 0–1, increasing
   * @param about combined belief, for mean and deviation of ln F; the search covers three
   *     deviations to each side
   */
  double[] freeChlorineMgL(List<Double> probabilities, Gaussian about) {
    double[] weight = weights();
    double middle = about.mean()[PoolModel.LN_FREE_CHLORINE];
    double sd = StrictMath.sqrt(about.variance(PoolModel.LN_FREE_CHLORINE));
    double step = 2 * GRID_SD * sd / GRID;
    double[] found = new double[probabilities.size()];
    double ln = middle - GRID_SD * sd;
    double share = below(ln, weight);
    int next = 0;
    for (int i = 0; i < GRID; i++) {
      double shareAfter = below(ln + step, weight);
      while (next < found.length && probabilities.get(next) <= shareAfter) {
        double within = Math.max(0, probabilities.get(next) - share) / (shareAfter - share);
        found[next] = StrictMath.exp(ln + within * step);
        next++;
      }
      ln += step;
      share = shareAfter;
    }
    while (next < found.length) {
      found[next] = StrictMath.exp(ln);
      next++;
    }
    return found;
  }

  /** Probability that free chlorine is below a level, mg/L. */
  double below(double freeChlorineMgL) {
    return below(StrictMath.log(freeChlorineMgL), weights());
  }

  private double below(double ln, double[] weight) {
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      sum += weight[i] * hypotheses.get(i).belief.below(PoolModel.LN_FREE_CHLORINE, ln);
    }
    return sum;
  }

  /**
   * Deviation of free chlorine about a level, mg/L. Its logarithm is nearly normal, so it can be
   * far above the level but only a little below: E[F] = e^(m + v/2), E[F²] = e^(2m + 2v).
   */
  double freeChlorineSdMgL(double aboutMgL) {
    double[] weight = weights();
    double square = 0;
    for (int i = 0; i < weight.length; i++) {
      Gaussian b = hypotheses.get(i).belief;
      double m = b.mean()[PoolModel.LN_FREE_CHLORINE];
      double v = Math.min(MOST_VARIANCE, b.variance(PoolModel.LN_FREE_CHLORINE));
      double mean = StrictMath.exp(m + v / 2);
      square +=
          weight[i] * (StrictMath.exp(2 * m + 2 * v) - 2 * aboutMgL * mean + aboutMgL * aboutMgL);
    }
    return StrictMath.sqrt(Math.max(0, square));
  }
}
