package limnostat.estimate;

import limnostat.estimate.EstimateState.Window;
import limnostat.measure.Measurements;
import limnostat.water.Orp;

/**
 * Free chlorine, the pool's demand, the output's true gain, the electrode and the person's kit,
 * from what was fed, what the electrode says and what a person tests: an iterated, robust extended
 * Kalman filter over {@link PoolModel}.
 */
public final class Estimator {
  /** The belief is moved on this often, s; in between its mean alone. */
  private static final double PREDICT_S = 300;

  /**
   * The electrode corrects the belief this often, s, by its mean over the time: its errors last for
   * tens of minutes, so that more frequent samples would be counted as news that they are not
   * (engineering judgement).
   */
  private static final double ORP_S = 1800;

  /** Scatter of one such mean: noise and lag, mV (engineering judgement). */
  private static final double ORP_SD_MV = 8;

  /** Degrees of freedom of the likelihoods: small is sceptical (engineering judgement). */
  private static final double ORP_FREEDOM = 4;

  private static final double TEST_FREEDOM = 6;

  /** Error of a person's test: 0.2 mg/L or 10 %, whichever is more (common practice, no source). */
  private static final double TEST_SD_MG_L = 0.25;

  private static final double TEST_SD_FRACTION = 0.1;

  private static final double DAY_S = 86400;

  private Estimator() {}

  public record Result(Estimate estimate, EstimateState state) {}

  /** Where the filter begins when nothing was saved. */
  public static EstimateState start(EstimateSettings settings, double targetMgL) {
    double demand = Math.max(0.2, settings.demandMgLDay());
    double[] mean = {
      StrictMath.log(Math.max(0.3, settings.freeChlorineMgL())),
      StrictMath.log(0.2 * demand / targetMgL),
      StrictMath.log(0.25 * demand),
      StrictMath.log(0.4 * demand / targetMgL),
      0,
      nominalMv(settings.cyanuricAcidMgL()),
      0,
      0,
      0.6,
      -15,
      0,
      StrictMath.log(0.15 * demand)
    };
    double[] sd = {0.5, 0.6, 0.6, 0.7, 0.18, 40, 0.07, 0.3, 0.5, 8, 0.4, 0.8};
    Gaussian belief = Gaussian.independent(mean, sd);
    return new EstimateState(
        Mixture.start(belief),
        belief,
        settings.cyanuricAcidMgL(),
        mean[PoolModel.OFFSET],
        7.5,
        25,
        0,
        0,
        Window.EMPTY,
        0,
        0);
  }

  /**
   * One scan.
   *
   * @param givenG chlorine that went in since the last scan, g
   * @param targetMgL the target for which demand and ORP setpoint are wanted, mg/L
   * @param unixTimeS now: where the sun is
   * @param elapsedS time since the last scan, s
   */
  public static Result step(
      EstimateSettings settings,
      EstimateState state,
      Measurements measured,
      double givenG,
      double targetMgL,
      double unixTimeS,
      double elapsedS) {
    boolean usable = measured.orpMv().fresh() && measured.ph().usable();
    Window window =
        usable ? state.window().with(measured.orpMv().orElse(0), elapsedS) : Window.EMPTY;
    EstimateState next =
        new EstimateState(
            state.mixture(),
            state.belief(),
            state.cyanuricAcidMgL(),
            state.testedOffsetMv(),
            measured.ph().orElse(state.ph()),
            measured.waterC().orElse(state.waterC()),
            state.sinceS() + elapsedS,
            state.riseMgL() + givenG / settings.volumeM3(),
            window,
            state.innovationMv(),
            state.innovationSdMv());
    Hour hour = Hour.of(settings, unixTimeS);
    if (next.sinceS() >= PREDICT_S) {
      next = moved(next, hour);
    }
    if (window.forS() >= ORP_S) {
      next = corrected(moved(next, hour));
    }
    return new Result(describe(next, targetMgL, hour), next);
  }

  /** A person's test corrects free chlorine, and through it what is believed of everything else. */
  public static EstimateState test(EstimateState state, WaterTest test) {
    Mixture mixture = state.mixture();
    if (test.freeChlorineMgL().isPresent()) {
      double read = test.freeChlorineMgL().getAsDouble();
      double sd = Math.max(TEST_SD_MG_L, TEST_SD_FRACTION * read);
      mixture =
          mixture
              .corrected(read, sd * sd, TEST_FREEDOM, h -> new PoolModel.KitSensor())
              .mixture();
    }
    Gaussian belief = mixture.together();
    return new EstimateState(
        mixture,
        belief,
        test.cyanuricAcidMgL().orElse(state.cyanuricAcidMgL()),
        test.freeChlorineMgL().isPresent()
            ? belief.mean()[PoolModel.OFFSET]
            : state.testedOffsetMv(),
        state.ph(),
        state.waterC(),
        state.sinceS(),
        state.riseMgL(),
        state.window(),
        state.innovationMv(),
        state.innovationSdMv());
  }

  private static EstimateState moved(EstimateState s, Hour hour) {
    double days = s.sinceS() / DAY_S;
    Mixture mixture =
        s.mixture()
            .predicted(b -> PoolModel.predict(b, s.riseMgL(), hour, s.waterC(), days), days);
    return new EstimateState(
        mixture,
        mixture.together(),
        s.cyanuricAcidMgL(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        0,
        0,
        s.window(),
        s.innovationMv(),
        s.innovationSdMv());
  }

  private static EstimateState corrected(EstimateState s) {
    Mixture.Correction correction =
        s.mixture()
            .corrected(
                s.window().meanMv(),
                ORP_SD_MV * ORP_SD_MV,
                ORP_FREEDOM,
                h -> new PoolModel.OrpSensor(h.slopeMv(), s.cyanuricAcidMgL(), s.ph(), s.waterC()));
    return new EstimateState(
        correction.mixture(),
        correction.mixture().together(),
        s.cyanuricAcidMgL(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        s.sinceS(),
        s.riseMgL(),
        Window.EMPTY,
        correction.innovation(),
        correction.innovationSd());
  }

  private static Estimate describe(EstimateState s, double targetMgL, Hour hour) {
    Outlook outlook = PoolModel.outlook(s.belief(), s.waterC());
    double now =
        outlook.after(outlook.freeChlorineMgL(), s.riseMgL(), hour, s.sinceS() / DAY_S, 0);
    Outlook fromNow = outlook.at(now);
    double[] x = s.belief().mean().clone();
    double nominalMv = nominalMv(s.cyanuricAcidMgL());
    double offsetMv = x[PoolModel.OFFSET] - nominalMv;
    x[PoolModel.OFFSET] = s.testedOffsetMv();
    x[PoolModel.LN_FREE_CHLORINE] = StrictMath.log(targetMgL);
    double demand = fromNow.ratePerDay(targetMgL, Hour.MEAN, 1) * targetMgL;
    return new Estimate(
        now,
        now * StrictMath.sqrt(s.belief().variance(PoolModel.LN_FREE_CHLORINE)),
        demand,
        demandSd(s, fromNow, targetMgL),
        new PoolModel.OrpSensor(Mixture.SLOPE_MV, s.cyanuricAcidMgL(), s.ph(), s.waterC())
            .expected(x),
        offsetMv,
        s.innovationMv(),
        s.innovationSdMv(),
        fromNow);
  }

  /** The three losses' relative errors, taken as independent, mg/L a day. */
  private static double demandSd(EstimateState s, Outlook outlook, double targetMgL) {
    double dark = outlook.darkPerDay() * targetMgL;
    double steady = outlook.steadyMgLDay();
    double people = outlook.peopleMgLDay();
    double sun = outlook.sunPerDay() * targetMgL;
    return StrictMath.sqrt(
        dark * dark * s.belief().variance(PoolModel.LN_DARK)
            + steady * steady * s.belief().variance(PoolModel.LN_STEADY)
            + people * people * s.belief().variance(PoolModel.LN_PEOPLE)
            + sun * sun * s.belief().variance(PoolModel.LN_SUN));
  }

  /** What the nominal electrode shows in the reference water, mV. */
  private static double nominalMv(double cyanuricAcidMgL) {
    return Orp.LEVEL_MV + Orp.SLOPE_MV * PoolModel.referenceLogHocl(cyanuricAcidMgL);
  }
}
