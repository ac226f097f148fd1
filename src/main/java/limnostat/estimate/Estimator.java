package limnostat.estimate;

import java.util.function.Function;
import limnostat.estimate.EstimateState.Fed;
import limnostat.estimate.EstimateState.Window;
import limnostat.measure.Measurements;
import limnostat.water.Orp;

/**
 * Estimates free chlorine, the pool's demand, the output's true gain, the electrode and the
 * person's kit. The inputs are what was fed, the electrode's readings and a person's tests. It runs
 * iterated, robust extended Kalman filters over {@link PoolModel}, one for each electrode
 * hypothesis ({@link Mixture}).
 */
public final class Estimator {
  /** Interval of the prediction, s. In between only the mean is predicted. */
  private static final double PREDICT_S = 900;

  /**
   * The electrode corrects the belief this often, s, by its mean over that time. Its errors last
   * for tens of minutes, so more frequent samples would wrongly count as independent (engineering
   * judgement).
   */
  private static final double ORP_S = 1800;

  /** Degrees of freedom of the likelihood of ORP: few are sceptical (engineering judgement). */
  private static final double ORP_FREEDOM = 4;

  /** The same for a test that reads far above everything else: it would stop the feed. */
  private static final double TEST_FREEDOM = 4;

  /** The same for a test that is fully trusted: practically Gaussian. */
  private static final double UNDOUBTED_FREEDOM = 1e6;

  /** ORP this far below its expectation is not drift, mV and deviations (engineering judgement). */
  private static final double FELL_MV = 50;

  private static final double FELL_SD = 3;

  /** Error of ln of free chlorine in that case: a factor of 5 (engineering judgement). */
  private static final double FELL_LN = 1.6;

  /** Standard deviation of the level between electrodes, mV (engineering judgement). */
  private static final double OFFSET_SD_MV = 40;

  /**
   * Change of the potential per °C at the same free chlorine, by a second published set of
   * cyanurate constants, and per unit of pH at the same HOCl, half of theory (engineering
   * judgement).
   */
  private static final double PER_C_MV = 0.6;

  private static final double PER_PH_MV = -15;

  /** The electrode that the ORP setpoint is calculated with. */
  private static final Electrode NOMINAL =
      new Electrode(Electrode.SLOPE_MV, Electrode.Trust.ORDINARY);

  private static final double DAY_S = 86400;

  /**
   * After widening, a contradicting test is this many deviations off. The factor has an upper
   * limit.
   */
  private static final double UNSURE_SD = 1;

  private static final double UNSURE_MOST = 4;

  private Estimator() {}

  public record Result(Estimate estimate, EstimateState state) {}

  /** The filter's initial state when nothing was saved. */
  public static EstimateState start(EstimateSettings settings, double targetMgL) {
    double demand = Math.max(0.2, settings.demandMgLDay());
    SlowAccount slow = SlowAccount.start(settings.slow());
    double[] mean = new double[PoolModel.STATES]; // 0 unless set below
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
    mean[PoolModel.PER_C] = PER_C_MV;
    sd[PoolModel.PER_C] = 0.5;
    mean[PoolModel.PER_PH] = PER_PH_MV;
    sd[PoolModel.PER_PH] = 8;
    Mixture mixture =
        Mixture.start(
            e -> {
              double[] of = sd.clone();
              of[PoolModel.WANDER] = e.trust().wanderMv;
              return Gaussian.independent(mean, of);
            });
    Gaussian together = mixture.together();
    return new EstimateState(
        mixture,
        together,
        Residual.of(mixture, together),
        slow,
        mean[PoolModel.OFFSET],
        7.5,
        25,
        0,
        Fed.START,
        Window.EMPTY,
        Consistency.START,
        TestLog.START);
  }

  /**
   * One scan.
   *
   * @param givenG chlorine that went in since the last scan, g
   * @param targetMgL the target for which demand and ORP setpoint are calculated, mg/L
   * @param hour sun and bathers of the present hour
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
            state.residual(),
            state.slow(),
            state.testedOffsetMv(),
            measured.ph().orElse(state.ph()),
            measured.waterOr(state.waterC()),
            state.sinceS() + elapsedS,
            state.fed().with(settings, givenG, measured.cellA(), elapsedS),
            window,
            state.consistency(),
            state.tests().aged(state.residual().sdShare(), state.slow(), elapsedS));
    if (next.sinceS() >= PREDICT_S) {
      next = moved(next, hour, measured.waterSdC());
    }
    if (window.forS() >= ORP_S) {
      next = corrected(moved(next, hour, measured.waterSdC()), measured.waterSdC());
    }
    return new Result(describe(next, targetMgL, hour), next);
  }

  /**
   * A person's test corrects free chlorine, and through it the belief about everything else. A low
   * test counts fully and at once. One that reads far above everything else counts only in part,
   * until the next test.
   */
  public static EstimateState test(EstimateState state, WaterTest test) {
    Mixture mixture = state.mixture();
    Gaussian belief = state.belief();
    TestLog tests = state.tests().with(test);
    double testedOffsetMv = state.testedOffsetMv();
    if (test.freeChlorineMgL().isPresent()) {
      double read = test.freeChlorineMgL().getAsDouble();
      double expected = expectedMgL(mixture, read);
      double sd = PoolModel.KitSensor.sd(read, expected, tests.sdMgL(test, read));
      Mixture.Correction whole = tested(mixture, read, sd, UNDOUBTED_FREEDOM, h -> h.belief());
      TestVerdict.Reading reading =
          new TestVerdict.Reading(read, expected, whole.innovation() / whole.innovationSd());
      TestVerdict verdict = TestVerdict.of(tests, reading);
      tests = tests.with(verdict, reading);
      mixture =
          switch (verdict) {
            case NONE -> mixture;
            case BELIEVED, BORNE_OUT ->
                reading.farOff()
                    ? tested(
                            mixture,
                            read,
                            sd,
                            UNDOUBTED_FREEDOM,
                            h -> unsure(h.belief(), reading.offSd()))
                        .mixture()
                    : whole.mixture();
            case DOUBTED -> tested(mixture, read, sd, TEST_FREEDOM, h -> h.belief()).mixture();
          };
      belief = mixture.together();
      testedOffsetMv = belief.mean()[PoolModel.OFFSET] + belief.mean()[PoolModel.WANDER];
    }
    return new EstimateState(
        mixture,
        belief,
        Residual.of(mixture, belief),
        state.slow().tested(test),
        testedOffsetMv,
        state.ph(),
        state.waterC(),
        state.sinceS(),
        state.fed(),
        state.window(),
        state.consistency(),
        tests);
  }

  /**
   * A test contradicts a belief that was too certain. The states related to free chlorine become
   * less certain, until the test is likely. Losses, output and electrode keep their shares of the
   * uncertainty, and learn from the test.
   *
   * @param offSd how far the test is off, in deviations
   */
  private static Gaussian unsure(Gaussian belief, double offSd) {
    double factor = Math.min(UNSURE_MOST, Math.abs(offSd) / UNSURE_SD);
    Gaussian next = belief;
    for (int state : PoolModel.OF_FREE_CHLORINE) {
      next = next.scaled(state, factor);
    }
    return next;
  }

  /**
   * Chlorine came or went by other ways than the output: by hand, or with drained water. F⁺ = F +
   * r, so ln F⁺ = ln (F + r) with the slope F/F⁺, and var⁺ = (F/F⁺)² var + (σ_r/F⁺)².
   *
   * @param riseMgL r, below 0 if chlorine was removed, mg/L
   * @param riseSdMgL its standard deviation, at least 0, mg/L
   */
  public static EstimateState added(EstimateState state, double riseMgL, double riseSdMgL) {
    Mixture mixture = state.mixture().each(h -> added(h.belief(), riseMgL, riseSdMgL));
    Gaussian together = mixture.together();
    return new EstimateState(
        mixture,
        together,
        Residual.of(mixture, together),
        state.slow(),
        state.testedOffsetMv(),
        state.ph(),
        state.waterC(),
        state.sinceS(),
        state.fed(),
        state.window(),
        state.consistency(),
        state.tests());
  }

  private static Gaussian added(Gaussian belief, double riseMgL, double riseSdMgL) {
    int n = belief.size();
    int free = PoolModel.LN_FREE_CHLORINE;
    double f = StrictMath.exp(belief.mean()[free]);
    double sd = StrictMath.sqrt(f * f * belief.variance(free) + riseSdMgL * riseSdMgL);
    // Free chlorine cannot be below 0, nor is it known to be close to 0.
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

  /** Expected reading of a kit by all hypotheses together, mg/L. */
  private static double expectedMgL(Mixture mixture, double readMgL) {
    double innovation =
        tested(mixture, readMgL, 1, UNDOUBTED_FREEDOM, h -> h.belief()).innovation();
    return Math.max(0, PoolModel.KitSensor.readMgL(PoolModel.KitSensor.of(readMgL) - innovation));
  }

  private static Mixture.Correction tested(
      Mixture mixture,
      double readMgL,
      double sd,
      double freedom,
      Function<Mixture.Hypothesis, Gaussian> prior) {
    PoolModel.KitSensor kit = new PoolModel.KitSensor();
    double z = PoolModel.KitSensor.of(readMgL);
    return mixture.corrected(
        Mixture.Evidence.TEST,
        h -> new Mixture.Reading(z, sd * sd, freedom, kit, prior.apply(h)),
        (h, b) -> PoolModel.bounded(b));
  }

  /**
   * @param waterSdC standard deviation of the water temperature, °C
   */
  private static EstimateState moved(EstimateState s, Hour hour, double waterSdC) {
    double days = s.sinceS() / DAY_S;
    Mixture mixture =
        s.mixture()
            .predicted(
                h -> {
                  Gaussian b = h.belief();
                  Gaussian next =
                      PoolModel.predict(
                          b, h.electrode().trust(), s.fed().riseMgL(), hour, s.waterC(), days);
                  return waterSdC > 0
                      ? next.widened(
                          PoolModel.LN_FREE_CHLORINE,
                          PoolModel.lossSd(b, s.waterC(), waterSdC) * StrictMath.sqrt(days))
                      : next;
                },
                days);
    Gaussian together = mixture.together();
    return new EstimateState(
        mixture,
        together,
        Residual.of(mixture, together),
        s.slow(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        0,
        s.fed().counted(),
        s.window(),
        s.consistency(),
        s.tests());
  }

  private static EstimateState corrected(EstimateState s, double waterSdC) {
    double byWaterMv = waterSdC > 0 ? waterMv(s, waterSdC) : 0;
    double referenceLogHocl = PoolModel.referenceLogHocl(s.slow().cyanuricAcidMgL());
    Mixture.Correction correction =
        s.mixture()
            .corrected(
                Mixture.Evidence.ORP,
                h -> orp(s, h, byWaterMv, referenceLogHocl),
                (h, b) -> PoolModel.bounded(b));
    Mixture mixture = correction.mixture();
    Gaussian together = mixture.together();
    return new EstimateState(
        mixture,
        together,
        Residual.of(mixture, together),
        s.slow(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        s.sinceS(),
        s.fed(),
        Window.EMPTY,
        s.consistency()
            .with(correction.innovation(), correction.innovationSd(), mixture.muteWeight()),
        s.tests());
  }

  /**
   * Chlorine can go within hours (a party, a storm, a slug of organic matter), faster than the
   * modelled losses vary. If ORP is far lower than expected, free chlorine may be anything below
   * its estimate.
   */
  private static Gaussian whereItFell(
      EstimateState s, Mixture.Hypothesis h, PoolModel.OrpSensor sensor) {
    if (h.electrode().mute()) {
      return h.belief();
    }
    double fellMv = sensor.expected(h.belief().mean()) - s.window().meanMv();
    double sdMv = h.electrode().trust().scatterMv + h.electrode().trust().wanderMv;
    return fellMv > Math.max(FELL_MV, FELL_SD * sdMv)
        ? h.belief().widened(PoolModel.LN_FREE_CHLORINE, FELL_LN)
        : h.belief();
  }

  private static Mixture.Reading orp(
      EstimateState s, Mixture.Hypothesis h, double byWaterMv, double referenceLogHocl) {
    PoolModel.OrpSensor sensor =
        new PoolModel.OrpSensor(
            h.electrode(), s.slow().cyanuricAcidMgL(), s.ph(), s.waterC(), referenceLogHocl);
    double scatterMv = h.electrode().trust().scatterMv;
    // A reading below the electrode's potential without chlorine says no more than that potential.
    double shownMv = Math.max(s.window().meanMv(), sensor.leastMv(h.belief().mean()));
    return new Mixture.Reading(
        shownMv,
        scatterMv * scatterMv + byWaterMv * byWaterMv,
        ORP_FREEDOM,
        sensor,
        whereItFell(s, h, sensor));
  }

  /** Change of the expected ORP for this step of water temperature, mV. */
  private static double waterMv(EstimateState s, double stepC) {
    double[] x = s.belief().mean();
    double cyanuricAcidMgL = s.slow().cyanuricAcidMgL();
    double warmer =
        new PoolModel.OrpSensor(NOMINAL, cyanuricAcidMgL, s.ph(), s.waterC() + stepC).expected(x);
    double colder =
        new PoolModel.OrpSensor(NOMINAL, cyanuricAcidMgL, s.ph(), s.waterC() - stepC).expected(x);
    return (warmer - colder) / 2;
  }

  private static Estimate describe(EstimateState s, double targetMgL, Hour hour) {
    Outlook outlook = PoolModel.outlook(s.belief(), s.waterC());
    double now =
        Math.max(
            PoolModel.LEAST_MG_L,
            outlook.after(
                outlook.freeChlorineMgL(), s.fed().riseMgL(), hour, s.sinceS() / DAY_S, 0));
    double share = s.fed().cell().share();
    Outlook fromNow = outlook.at(now).delivering(share);
    double[] x = s.belief().mean().clone();
    PoolModel.OrpSensor sensor =
        new PoolModel.OrpSensor(NOMINAL, s.slow().cyanuricAcidMgL(), s.ph(), s.waterC());
    double offsetMv =
        x[PoolModel.OFFSET] + x[PoolModel.WANDER] - nominalMv(sensor.referenceLogHocl());
    x[PoolModel.OFFSET] = s.testedOffsetMv();
    x[PoolModel.WANDER] = 0;
    // Terms learned from ORP itself stay out of its setpoint, or the pool would follow the
    // electrode.
    x[PoolModel.PER_C] = PER_C_MV;
    x[PoolModel.PER_PH] = PER_PH_MV;
    x[PoolModel.LN_FREE_CHLORINE] = StrictMath.log(targetMgL);
    double demand = fromNow.ratePerDay(targetMgL, Hour.MEAN, 1) * targetMgL;
    return new Estimate(
        now,
        // What was fed since is known, so it does not add to the deviation.
        Math.min(now, outlook.freeChlorineMgL()) * s.residual().sdShare(),
        demand,
        demandSd(s, fromNow, targetMgL),
        sensor.expected(x),
        offsetMv,
        s.consistency(),
        fromNow,
        PoolModel.outlook(s.mixture().byBalance(), s.waterC()).delivering(share),
        s.residual(),
        s.tests().usedUp(),
        s.tests().due());
  }

  /**
   * Deviation of the demand, with the relative errors of the losses taken as independent, mg/L per
   * day.
   */
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

  /** Potential of the nominal electrode in the reference water, mV. */
  private static double nominalMv(double referenceLogHocl) {
    return Orp.LEVEL_MV + Orp.SLOPE_MV * referenceLogHocl;
  }
}
