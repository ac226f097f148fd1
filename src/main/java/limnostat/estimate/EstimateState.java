package limnostat.estimate;

/**
 * What the estimator remembers.
 *
 * @param mixture what is believed for each slope that the electrode may have
 * @param belief all of it together; see {@link PoolModel}
 * @param cyanuricAcidMgL stabiliser as last told, mg/L
 * @param testedOffsetMv what the electrode shows in the reference water, as of the last test of
 *     free chlorine, mV: the setpoint follows tests only, or it would follow the electrode, and the
 *     pool with it
 * @param ph last usable pH
 * @param waterC last usable water temperature, °C
 * @param sinceS time since the belief was last moved on, s
 * @param riseMgL what is told to have gone in since, mg/L
 * @param window ORP gathered for the next correction
 * @param innovationMv difference between the last ORP and what was expected, mV
 * @param innovationSdMv what that difference was expected to scatter by, mV
 */
public record EstimateState(
    Mixture mixture,
    Gaussian belief,
    double cyanuricAcidMgL,
    double testedOffsetMv,
    double ph,
    double waterC,
    double sinceS,
    double riseMgL,
    Window window,
    double innovationMv,
    double innovationSdMv) {

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
}
