package limnostat.estimate;

import java.util.OptionalDouble;

/**
 * What the estimator remembers.
 *
 * @param mixture what is believed for each electrode that there may be
 * @param belief all of it together; see {@link PoolModel}
 * @param residual how sure it is that there is chlorine
 * @param slow the account of stabiliser and what else changes over weeks
 * @param testedOffsetMv what the electrode shows in the reference water, as of the last test of
 *     free chlorine, mV: the setpoint follows tests only, or it would follow the electrode, and the
 *     pool with it
 * @param ph last usable pH
 * @param waterC last usable water temperature, °C
 * @param sinceS time since the belief was last moved on, s
 * @param fed what went in since
 * @param window ORP gathered for the next correction
 * @param consistency whether the electrode shows what is expected of it
 * @param tests what is remembered of a person's tests
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

  /** What is read back from a ledger is checked as a stranger's would be. */
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

  /** After a restart the file may tell something else. */
  public EstimateState resumed(EstimateSettings settings) {
    return knowing(slow.resumed(settings.slow()));
  }

  /** The same stand of the filter, with other knowledge of the water. */
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
   * The water itself has changed: with more stabiliser the same free chlorine shows less. The
   * reference water of {@link PoolModel#OFFSET} is that of the present stabiliser, so the level in
   * it moves by b (log10 HOCl(new) − log10 HOCl(old)), b the slope that is supposed, and so does
   * the tested one, by the slope that its setpoint is worked out with. A test that corrects the
   * account moves neither: what the electrode has shown stays true, and the mistake was in its
   * level all along.
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
   * What went in since the belief was last moved on.
   *
   * @param riseMgL by the label, as far as the cell's current bears it out, mg/L
   * @param cell what the current says of the output
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
   * @param forS for how long it has been gathered, s
   * @param sumMvS sum of ORP by time, mV s
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
