package limnostat.estimate;

import limnostat.measure.Measurements;
import limnostat.water.Cyanurate;
import limnostat.water.Orp;

/**
 * Free chlorine and the pool's demand, from what was fed, what the electrode says and what a person
 * tests: an extended Kalman filter over free chlorine F, loss rate k and electrode offset o.
 *
 * <p>Process: dF/dt = u/V − k s(t) F, with u the dose and s(t) the daily shape of the loss, mean 1:
 * part goes on day and night, part follows the sun. Measurement: E = E_nominal(F, stabiliser, pH,
 * T) + o. The electrode's slope is not estimated: where it differs, the estimate leans on the
 * tests.
 */
public final class Estimator {
  /**
   * Share of a day's loss that follows the sun: engineering judgement for a stabilised outdoor
   * pool.
   */
  private static final double SUN_SHARE = 0.6;

  /**
   * The electrode corrects the belief this often, s: its errors last for minutes, so more frequent
   * samples would be counted as news that they are not (engineering judgement: several electrode
   * lags).
   */
  private static final double UPDATE_S = 600;

  /**
   * Scatter of one such correction: noise, lag and the unknown slope, mV (engineering judgement).
   */
  private static final double ORP_SD_MV = 10;

  /** A person's test is believed as it is; the electrode only so far. */
  private static final double ORP_BOUND_SD = 3;

  /** Error of a person's test: 0.2 mg/L or 10 %, whichever is more (common practice, no source). */
  private static final double TEST_SD_MG_L = 0.2;

  private static final double TEST_SD_FRACTION = 0.1;

  // First guesses' standard deviations (engineering judgement).
  private static final double FREE_CHLORINE_SD_START_MG_L = 1.5;
  private static final double LOSS_SD_START_FRACTION = 0.8;
  private static final double OFFSET_SD_START_MV = 40;

  private static final double DAY_S = 86400;

  private Estimator() {}

  public record Result(Estimate estimate, EstimateState state) {}

  /** Where the filter begins when nothing was saved. */
  public static EstimateState start(EstimateSettings settings, double targetMgL) {
    double loss = Math.max(Belief.LOSS_FLOOR, settings.demandMgLDay() / targetMgL);
    Belief belief =
        new Belief(
            settings.freeChlorineMgL(),
            loss,
            0,
            square(FREE_CHLORINE_SD_START_MG_L),
            0,
            0,
            square(loss * LOSS_SD_START_FRACTION),
            0,
            square(OFFSET_SD_START_MV));
    // pH and temperature stand in until the probes have been seen.
    return new EstimateState(belief, settings.cyanuricAcidMgL(), 0, 7.5, 25, 0, 0, 0);
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
    Belief predicted =
        state
            .belief()
            .predict(
                givenG / settings.volumeM3(), lossShape(settings, unixTimeS), elapsedS / DAY_S);
    EstimateState next =
        new EstimateState(
            predicted,
            state.cyanuricAcidMgL(),
            state.testedOffsetMv(),
            measured.ph().orElse(state.ph()),
            measured.waterC().orElse(state.waterC()),
            state.sinceUpdateS() + elapsedS,
            state.innovationMv(),
            state.innovationSdMv());
    if (measured.orpMv().fresh() && measured.ph().usable() && next.sinceUpdateS() >= UPDATE_S) {
      next = corrected(next, measured.orpMv().orElse(0));
    }
    return new Result(describe(next, targetMgL), next);
  }

  /** A person's test corrects free chlorine, and through it what is believed of the electrode. */
  public static EstimateState test(EstimateState state, WaterTest test) {
    Belief belief = state.belief();
    if (test.freeChlorineMgL().isPresent()) {
      double freeChlorineMgL = test.freeChlorineMgL().getAsDouble();
      double sdMgL = Math.max(TEST_SD_MG_L, TEST_SD_FRACTION * freeChlorineMgL);
      belief =
          belief
              .correct(
                  freeChlorineMgL - belief.freeChlorineMgL(),
                  1,
                  0,
                  square(sdMgL),
                  Double.POSITIVE_INFINITY)
              .belief();
    }
    return new EstimateState(
        belief,
        test.cyanuricAcidMgL().orElse(state.cyanuricAcidMgL()),
        // Without free chlorine the test says nothing of the electrode.
        test.freeChlorineMgL().isPresent() ? belief.offsetMv() : state.testedOffsetMv(),
        state.ph(),
        state.waterC(),
        state.sinceUpdateS(),
        state.innovationMv(),
        state.innovationSdMv());
  }

  private static EstimateState corrected(EstimateState state, double orpMv) {
    double freeChlorineMgL = state.belief().freeChlorineMgL();
    double expectedMv = nominalMv(state, freeChlorineMgL) + state.belief().offsetMv();
    double stepMgL = 0.01 * freeChlorineMgL + 1e-3;
    double slope =
        (nominalMv(state, freeChlorineMgL + stepMgL) - nominalMv(state, freeChlorineMgL)) / stepMgL;
    Belief.Correction correction =
        state.belief().correct(orpMv - expectedMv, slope, 1, square(ORP_SD_MV), ORP_BOUND_SD);
    return new EstimateState(
        correction.belief(),
        state.cyanuricAcidMgL(),
        state.testedOffsetMv(),
        state.ph(),
        state.waterC(),
        0,
        correction.innovation(),
        correction.innovationSd());
  }

  private static Estimate describe(EstimateState state, double targetMgL) {
    Belief belief = state.belief();
    return new Estimate(
        belief.freeChlorineMgL(),
        StrictMath.sqrt(belief.ff()),
        belief.lossPerDay() * targetMgL,
        StrictMath.sqrt(belief.kk()) * targetMgL,
        nominalMv(state, targetMgL) + state.testedOffsetMv(),
        belief.offsetMv(),
        state.innovationMv(),
        state.innovationSdMv());
  }

  /** What the nominal electrode shows at this free chlorine in the water as last seen, mV. */
  private static double nominalMv(EstimateState state, double freeChlorineMgL) {
    double hoclMgL =
        Cyanurate.hypochlorousAcidMgL(
            freeChlorineMgL, state.cyanuricAcidMgL(), state.ph(), state.waterC());
    return Orp.expectedMv(hoclMgL, state.ph(), state.waterC());
  }

  /** The loss of this moment against the day's mean: (1 − a) + a cos z/mean cos z. */
  private static double lossShape(EstimateSettings settings, double unixTimeS) {
    double mean = Sun.dailyMeanCosZenith(unixTimeS, settings.latitudeDeg());
    if (mean < 0.01) {
      return 1; // polar night
    }
    double cosZenith =
        Math.max(0, Sun.cosZenith(unixTimeS, settings.latitudeDeg(), settings.longitudeDeg()));
    return 1 - SUN_SHARE + SUN_SHARE * cosZenith / mean;
  }

  private static double square(double x) {
    return x * x;
  }
}
