package limnostat.estimate;

import limnostat.estimate.EstimateState.Window;
import limnostat.measure.Measurements;
import limnostat.water.Orp;

/**
 * Free chlorine, the pool's demand, the output's true gain, the electrode and the person's kit,
 * from what was fed, what the electrode says and what a person tests: iterated, robust extended
 * Kalman filters over {@link PoolModel}, one for each slope that the electrode may have ({@link
 * Mixture}).
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
  private static final double ORP_SD_MV = 7;

  /** Degrees of freedom of the likelihoods: small is sceptical (engineering judgement). */
  private static final double ORP_FREEDOM = 4;

  private static final double TEST_FREEDOM = 6;

  /** Of a test against which nothing is known well: as good as Gaussian. */
  private static final double UNDOUBTED_FREEDOM = 1e6;

  /** How far electrodes differ in level, mV (engineering judgement). */
  private static final double OFFSET_SD_MV = 40;

  /**
   * What an electrode shows more for each °C at the same free chlorine, as a second published set
   * of cyanurate constants has it, and for each unit of pH at the same HOCl, half of theory
   * (engineering judgement).
   */
  private static final double PER_C_MV = 0.6;

  private static final double PER_PH_MV = -15;

  private static final double DAY_S = 86400;

  private Estimator() {}

  public record Result(Estimate estimate, EstimateState state) {}

  /** Where the filter begins when nothing was saved. */
  public static EstimateState start(EstimateSettings settings, double targetMgL) {
    double demand = Math.max(0.2, settings.demandMgLDay());
    SlowAccount slow = SlowAccount.start(settings.slow());
    double[] mean = new double[PoolModel.STATES]; // 0 where nothing is written
    double[] sd = new double[PoolModel.STATES];
    mean[PoolModel.LN_FREE_CHLORINE] = StrictMath.log(Math.max(0.3, settings.freeChlorineMgL()));
    sd[PoolModel.LN_FREE_CHLORINE] = 0.5;
    mean[PoolModel.LN_DARK] = StrictMath.log(0.2 * demand / targetMgL);
    sd[PoolModel.LN_DARK] = 0.6;
    mean[PoolModel.LN_STEADY] = StrictMath.log(0.25 * demand);
    sd[PoolModel.LN_STEADY] = 0.6;
    mean[PoolModel.LN_PEOPLE] = StrictMath.log(0.15 * demand);
    sd[PoolModel.LN_PEOPLE] = 0.8;
    mean[PoolModel.LN_SUN] = StrictMath.log(0.4 * demand / targetMgL);
    sd[PoolModel.LN_SUN] = 0.7;
    sd[PoolModel.LN_CLOUD] = 0.3;
    sd[PoolModel.LN_GAIN] = 0.18;
    sd[PoolModel.LN_KIT] = settings.kit().biasSdShare();
    mean[PoolModel.OFFSET] = nominalMv(PoolModel.referenceLogHocl(slow.cyanuricAcidMgL()));
    sd[PoolModel.OFFSET] = OFFSET_SD_MV;
    sd[PoolModel.DRIFT] = 0.45;
    mean[PoolModel.PER_C] = PER_C_MV;
    sd[PoolModel.PER_C] = 0.5;
    mean[PoolModel.PER_PH] = PER_PH_MV;
    sd[PoolModel.PER_PH] = 8;
    Gaussian belief = Gaussian.independent(mean, sd);
    return new EstimateState(
        Mixture.start(belief),
        belief,
        slow,
        mean[PoolModel.OFFSET],
        7.5,
        25,
        0,
        0,
        Window.EMPTY,
        Consistency.START,
        TestLog.START);
  }

  /**
   * One scan.
   *
   * @param givenG chlorine that went in since the last scan, g
   * @param targetMgL the target for which demand and ORP setpoint are wanted, mg/L
   * @param hour what the present hour brings
   * @param elapsedS time since the last scan, s
   */
  public static Result step(
      EstimateSettings settings,
      EstimateState state,
      Measurements measured,
      double givenG,
      double targetMgL,
      Hour hour,
      double elapsedS) {
    boolean usable = measured.orpMv().fresh() && measured.ph().usable();
    Window window =
        usable ? state.window().with(measured.orpMv().orElse(0), elapsedS) : Window.EMPTY;
    EstimateState next =
        new EstimateState(
            state.mixture(),
            state.belief(),
            state.slow(),
            state.testedOffsetMv(),
            measured.ph().orElse(state.ph()),
            measured.waterOr(state.waterC()),
            state.sinceS() + elapsedS,
            state.riseMgL() + givenG / settings.volumeM3(),
            window,
            state.consistency(),
            state.tests().aged(sdFraction(state.belief()), state.slow(), elapsedS));
    if (next.sinceS() >= PREDICT_S) {
      next = moved(next, hour, measured.waterSdC());
    }
    if (window.forS() >= ORP_S) {
      next = corrected(moved(next, hour, measured.waterSdC()), measured.waterSdC());
    }
    return new Result(describe(next, targetMgL, hour), next);
  }

  /** A person's test corrects free chlorine, and through it what is believed of everything else. */
  public static EstimateState test(EstimateState state, WaterTest test) {
    Mixture mixture = state.mixture();
    Gaussian belief = state.belief();
    TestLog tests = state.tests().with(test);
    double testedOffsetMv = state.testedOffsetMv();
    if (test.freeChlorineMgL().isPresent()) {
      double read = test.freeChlorineMgL().getAsDouble();
      double sd = test.kit().orElse(TestKit.UNSPECIFIED).sdMgL(read);
      boolean sure = Estimate.sure(sdFraction(belief));
      // The first test, and one while the estimate is unsure, is no outlier: there is nothing to
      // lie
      // out of. A sceptical likelihood would stay with the guess that the file began with.
      boolean undoubted = tests.verdict() == TestVerdict.NONE || !sure;
      double freedom = undoubted ? UNDOUBTED_FREEDOM : TEST_FREEDOM;
      Mixture.Correction correction = tested(mixture, read, sd, freedom);
      TestVerdict.Reading reading =
          new TestVerdict.Reading(read, read - correction.innovation(), correction.innovationSd());
      TestVerdict verdict = TestVerdict.of(sure, tests, reading);
      tests = tests.with(verdict, reading);
      mixture =
          switch (verdict) {
            case NONE, DOUBTED -> mixture;
            case BELIEVED -> correction.mixture();
            case BORNE_OUT ->
                tested(mixture.each(h -> TestVerdict.widened(h, reading)), read, sd, TEST_FREEDOM)
                    .mixture();
          };
      if (verdict != TestVerdict.DOUBTED) {
        belief = mixture.together();
        testedOffsetMv = belief.mean()[PoolModel.OFFSET];
      }
    }
    return new EstimateState(
        mixture,
        belief,
        state.slow().tested(test),
        testedOffsetMv,
        state.ph(),
        state.waterC(),
        state.sinceS(),
        state.riseMgL(),
        state.window(),
        state.consistency(),
        tests);
  }

  /**
   * Chlorine came or went beside what was fed: a person's hands, or water let out. F⁺ = F + r, so
   * that ln F⁺ = ln (F + r) with the slope F/F⁺, and var⁺ = (F/F⁺)² var + (σ_r/F⁺)².
   *
   * @param riseMgL r, below 0 where some is gone, mg/L
   * @param riseSdMgL its standard deviation, at least 0, mg/L
   */
  public static EstimateState added(EstimateState state, double riseMgL, double riseSdMgL) {
    Mixture mixture = state.mixture().each(h -> added(h.belief(), riseMgL, riseSdMgL));
    return new EstimateState(
        mixture,
        mixture.together(),
        state.slow(),
        state.testedOffsetMv(),
        state.ph(),
        state.waterC(),
        state.sinceS(),
        state.riseMgL(),
        state.window(),
        state.consistency(),
        state.tests());
  }

  private static Gaussian added(Gaussian belief, double riseMgL, double riseSdMgL) {
    int n = belief.size();
    int free = PoolModel.LN_FREE_CHLORINE;
    double f = StrictMath.exp(belief.mean()[free]);
    double sd = StrictMath.sqrt(f * f * belief.variance(free) + riseSdMgL * riseSdMgL);
    // What is left cannot be less than nothing, and is not known to be next to it either.
    double next = Math.max(f + riseMgL, sd / 2);
    double[] mean = belief.mean().clone();
    mean[free] = StrictMath.log(next);
    double[] transition = new double[n * n];
    for (int i = 0; i < n; i++) {
      transition[i * n + i] = 1;
    }
    transition[free * n + free] = f / next;
    double[] noise = new double[n];
    noise[free] = riseSdMgL * riseSdMgL / (next * next);
    return PoolModel.bounded(belief.predict(mean, transition, noise));
  }

  private static Mixture.Correction tested(
      Mixture mixture, double readMgL, double sdMgL, double freedom) {
    return mixture
        .corrected(readMgL, sdMgL * sdMgL, freedom, h -> new PoolModel.KitSensor())
        .kept(PoolModel::bounded);
  }

  /**
   * @param waterSdC what the water temperature may be off by, °C
   */
  private static EstimateState moved(EstimateState s, Hour hour, double waterSdC) {
    double days = s.sinceS() / DAY_S;
    Mixture mixture =
        s.mixture()
            .predicted(
                b -> {
                  Gaussian next = PoolModel.predict(b, s.riseMgL(), hour, s.waterC(), days);
                  return waterSdC > 0
                      ? next.widened(
                          PoolModel.LN_FREE_CHLORINE,
                          PoolModel.lossSd(b, s.waterC(), waterSdC) * StrictMath.sqrt(days))
                      : next;
                },
                days);
    return new EstimateState(
        mixture,
        mixture.together(),
        s.slow(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        0,
        0,
        s.window(),
        s.consistency(),
        s.tests());
  }

  private static EstimateState corrected(EstimateState s, double waterSdC) {
    double byWaterMv = waterSdC > 0 ? waterMv(s, waterSdC) : 0;
    Mixture.Correction correction =
        s.mixture()
            .corrected(
                s.window().meanMv(),
                ORP_SD_MV * ORP_SD_MV + byWaterMv * byWaterMv,
                ORP_FREEDOM,
                h ->
                    new PoolModel.OrpSensor(
                        h.slopeMv(), s.slow().cyanuricAcidMgL(), s.ph(), s.waterC()))
            .kept(PoolModel::bounded);
    Consistency consistency =
        s.consistency().with(correction.innovation(), correction.innovationSd());
    boolean justLost = consistency.lost() && !s.consistency().lost();
    Mixture mixture =
        justLost
            ? correction.mixture().each(Estimator::withAnotherElectrode)
            : correction.mixture();
    return new EstimateState(
        mixture,
        mixture.together(),
        s.slow(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        s.sinceS(),
        s.riseMgL(),
        Window.EMPTY,
        consistency,
        s.tests());
  }

  /** What so much of water temperature makes of the ORP that is expected, mV. */
  private static double waterMv(EstimateState s, double stepC) {
    double[] x = s.belief().mean();
    double cyanuricAcidMgL = s.slow().cyanuricAcidMgL();
    double warmer =
        new PoolModel.OrpSensor(Mixture.SLOPE_MV, cyanuricAcidMgL, s.ph(), s.waterC() + stepC)
            .expected(x);
    double colder =
        new PoolModel.OrpSensor(Mixture.SLOPE_MV, cyanuricAcidMgL, s.ph(), s.waterC() - stepC)
            .expected(x);
    return (warmer - colder) / 2;
  }

  /**
   * An electrode that contradicts all else for half a day is taken for another one: its level is as
   * unknown as at the start, and what it shows from now on is held against the water as the account
   * of doses has it.
   */
  private static Gaussian withAnotherElectrode(Mixture.Hypothesis hypothesis) {
    return hypothesis.belief().widened(PoolModel.OFFSET, OFFSET_SD_MV);
  }

  private static Estimate describe(EstimateState s, double targetMgL, Hour hour) {
    Outlook outlook = PoolModel.outlook(s.belief(), s.waterC());
    double now = outlook.after(outlook.freeChlorineMgL(), s.riseMgL(), hour, s.sinceS() / DAY_S, 0);
    Outlook fromNow = outlook.at(now);
    double[] x = s.belief().mean().clone();
    PoolModel.OrpSensor sensor =
        new PoolModel.OrpSensor(Mixture.SLOPE_MV, s.slow().cyanuricAcidMgL(), s.ph(), s.waterC());
    double offsetMv = x[PoolModel.OFFSET] - nominalMv(sensor.referenceLogHocl());
    x[PoolModel.OFFSET] = s.testedOffsetMv();
    // What was learned from ORP itself has no part in its setpoint, or the pool would follow it.
    x[PoolModel.PER_C] = PER_C_MV;
    x[PoolModel.PER_PH] = PER_PH_MV;
    x[PoolModel.LN_FREE_CHLORINE] = StrictMath.log(targetMgL);
    double demand = fromNow.ratePerDay(targetMgL, Hour.MEAN, 1) * targetMgL;
    return new Estimate(
        now,
        now * sdFraction(s.belief()),
        demand,
        demandSd(s, fromNow, targetMgL),
        sensor.expected(x),
        offsetMv,
        s.consistency(),
        fromNow,
        s.tests().due());
  }

  private static double sdFraction(Gaussian belief) {
    return StrictMath.sqrt(belief.variance(PoolModel.LN_FREE_CHLORINE));
  }

  /** The losses' relative errors, taken as independent, mg/L a day. */
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
  private static double nominalMv(double referenceLogHocl) {
    return Orp.LEVEL_MV + Orp.SLOPE_MV * referenceLogHocl;
  }
}
