package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * What the estimator remembers.
 *
 * @param mixture the belief for each electrode hypothesis
 * @param belief all of them combined; see {@link PoolModel}
 * @param residual how certain it is that there is chlorine
 * @param slow the account of stabiliser and other things that change over weeks
 * @param testedOffsetMv the electrode's potential in the reference water as of the last test of
 *     free chlorine, mV; the setpoint follows tests only, or it would follow the electrode, and the
 *     pool would follow it
 * @param ph last usable pH
 * @param waterC last usable water temperature, °C
 * @param sinceS time since the last prediction, s
 * @param fed what was fed since then
 * @param window ORP collected for the next correction
 * @param consistency whether the electrode shows what is expected of it
 * @param tests what is remembered about a person's tests
 */
public record EstimateState(
    Mixture mixture,
    Gaussian belief,
    Residual residual,
    SlowAccount slow,
    double testedOffsetMv,
    double ph,
    double waterC,
    double sinceS,
    Fed fed,
    Window window,
    Consistency consistency,
    TestLog tests) {

  /** Data read back from a ledger is checked like untrusted input. */
  public EstimateState {
    for (Mixture.Hypothesis h : mixture.hypotheses()) {
      requireOfPool(h.belief());
    }
    requireOfPool(belief);
  }

  private static void requireOfPool(Gaussian belief) {
    if (belief.size() != PoolModel.STATES) {
      throw new IllegalArgumentException(
          "a belief of " + belief.size() + " states, not " + PoolModel.STATES);
    }
  }

  /** The configuration file may have changed at a restart. */
  public EstimateState resumed(EstimateSettings settings) {
    return knowing(slow.resumed(settings.slow()));
  }

  /** The same state of the filter, with a new slow account. */
  EstimateState knowing(SlowAccount next) {
    return new EstimateState(
        mixture,
        belief,
        residual,
        next,
        testedOffsetMv,
        ph,
        waterC,
        sinceS,
        fed,
        window,
        consistency,
        tests);
  }

  /**
   * The water itself has changed: with more stabiliser, the same free chlorine gives a lower ORP.
   * The reference water of {@link PoolModel#OFFSET} has the present stabiliser. So the level in it
   * moves by b (log10 HOCl(new) − log10 HOCl(old)), with b the hypothesis' slope. The tested level
   * moves likewise, by the slope that its setpoint is calculated with. A test that corrects the
   * account moves neither: the electrode's readings remain true, and the error was in its level all
   * along.
   */
  public EstimateState drifted(SlowAccount next) {
    if (next.cyanuricAcidMgL() == slow.cyanuricAcidMgL()) {
      return knowing(next);
    }
    double decades =
        PoolModel.referenceLogHocl(next.cyanuricAcidMgL())
            - PoolModel.referenceLogHocl(slow.cyanuricAcidMgL());
    Mixture shifted =
        mixture.each(h -> h.belief().shifted(PoolModel.OFFSET, h.electrode().slopeMv() * decades));
    return new EstimateState(
        shifted,
        shifted.together(),
        residual,
        next,
        testedOffsetMv + Electrode.SLOPE_MV * decades,
        ph,
        waterC,
        sinceS,
        fed,
        window,
        consistency,
        tests);
  }

  /**
   * What was fed since the last prediction.
   *
   * @param riseMgL rise by the label, as far as the cell's current confirms it, mg/L
   * @param cell the cell's output by its current
   */
  public record Fed(double riseMgL, CellOutput cell) {
    static final Fed START = new Fed(0, CellOutput.AS_LABELLED);

    Fed with(EstimateSettings settings, double givenG, OptionalDouble cellA, double elapsedS) {
      CellOutput next =
          settings.labelGAh().isPresent() && cellA.isPresent()
              ? cell.with(
                  givenG / settings.labelGAh().getAsDouble(), cellA.getAsDouble() * elapsedS / 3600)
              : cell;
      return new Fed(riseMgL + next.share() * givenG / settings.volumeM3(), next);
    }

    Fed counted() {
      return new Fed(0, cell);
    }
  }

  /**
   * A running mean of ORP.
   *
   * @param forS for how long it has been collected, s
   * @param sumMvS sum of ORP × time, mV s
   */
  public record Window(double forS, double sumMvS) {
    static final Window EMPTY = new Window(0, 0);

    Window with(double orpMv, double elapsedS) {
      return new Window(forS + elapsedS, sumMvS + orpMv * elapsedS);
    }

    double meanMv() {
      return sumMvS / forS;
    }
  }

  /** Whether a test of stabiliser is wanted. */
  public boolean stabiliserWanted() {
    return TestDue.stabiliserWanted(slow, tests);
  }
}
