package limnostat.estimate;

import limnostat.water.Cyanurate;

/** The states of the filter, how they change, and how they are measured. */
final class PoolModel {
  /** ln of free chlorine in mg/L: it is always positive, and its errors are relative. */
  static final int LN_FREE_CHLORINE = 0;

  /** ln of the loss that is proportional to free chlorine, 1/day at 25 °C. */
  static final int LN_DARK = 1;

  /** ln of the loss that is independent of it, mg/L per day at 25 °C. */
  static final int LN_STEADY = 2;

  /** ln of the sun's loss, 1/day at a sun shape of 1. */
  static final int LN_SUN = 3;

  /**
   * ln of the effect of a gram by the label: output relative to its label, divided by volume
   * relative to the configured one.
   */
  static final int LN_GAIN = 4;

  /** Potential of the electrode in the reference water, mV. */
  static final int OFFSET = 5;

  /** ln of the reading of the person's kit relative to the truth. */
  static final int LN_KIT = 6;

  /** ln of the present sun relative to that of a usual day: clouds, and other passing effects. */
  static final int LN_CLOUD = 7;

  /** Change of the potential per °C above 25, at the same HOCl, mV. */
  static final int PER_C = 8;

  /** Change of the potential per unit of pH above 7.5, at the same HOCl, mV. */
  static final int PER_PH = 9;

  /** Error of the electrode besides its level, mV. It fades within days. */
  static final int WANDER = 10;

  /** ln of the loss from people, mg/L per day as the mean of a day. */
  static final int LN_PEOPLE = 11;

  static final int STATES = 12;

  /** The losses. */
  private static final int[] OF_LOSSES = {LN_DARK, LN_STEADY, LN_SUN, LN_PEOPLE};

  /** Upper limit of the deviation of a loss, near its initial value. */
  private static final double LOSS_SD_MAX = 0.8;

  /**
   * Limits of each loss, ln of 1/day or of mg/L per day. Unstabilised water in full sun loses
   * chlorine at a rate of about 20 per day at noon, 7 at a sun shape of 1 (engineering judgement).
   * Learning from contradictory tests must not end in a demand that no pool has.
   */
  private static final double LN_LOSS_MIN = StrictMath.log(0.001);

  private static final double LN_LOSS_MAX = StrictMath.log(15);

  private static final double GAIN_SD_MAX = 0.25;

  /** States by which free chlorine comes and goes, and the electrode's level and passing error. */
  static final int[] OF_FREE_CHLORINE = {
    LN_FREE_CHLORINE, LN_DARK, LN_STEADY, LN_SUN, LN_GAIN, LN_CLOUD, LN_PEOPLE, OFFSET, WANDER
  };

  /**
   * Limits of free chlorine in the belief, mg/L; it is always known to within a factor of e^1.5. In
   * water without chlorine the Jacobian of the logarithm grows without bound, and the deviation
   * with it, until a correction gives a result that is not a number (seen on a pool that was
   * starved for two weeks).
   */
  static final double LEAST_MG_L = 0.01;

  static final double MOST_MG_L = 100;
  private static final double LN_FREE_CHLORINE_SD_MAX = 1.5;

  /** Gain and kit stay within these factors' logarithms (engineering judgement). */
  private static final double GAIN_RANGE = 0.5;

  private static final double KIT_RANGE = 0.2;

  /**
   * Dark losses double with this rise of temperature, °C: 8–10 for clean water (common practice, no
   * source).
   */
  private static final double DOUBLING_C = 9;

  // Random walk per day, standard deviation (engineering judgement).
  private static final double NIGHT_WANDER = 0.03;

  /** Relative error of a day's loss. */
  private static final double LOSS_WANDER = 0.12;

  private static final double DAY_WANDER_MG_L = 0.3;
  private static final double DARK_WANDER = 0.03;
  private static final double STEADY_WANDER = 0.05;
  private static final double PEOPLE_WANDER = 0.1;
  private static final double SUN_WANDER = 0.04;

  /**
   * Natural decline of an output, 1/day: hypochlorite decays in its tank, cells wear and scale
   * (engineering judgement).
   */
  private static final double FADING_PER_DAY = 0.002;

  private static final double GAIN_WANDER = 0.02;
  private static final double KIT_WANDER = 0.002;

  /** Duration of an electrode's passing errors, days (engineering judgement). */
  private static final double WANDER_DAYS = 1.5;

  /**
   * Once chlorine is gone, the electrode leaves its normal line. It falls by this much for each
   * decade that free chlorine is below the second value (engineering judgement on electrodes in
   * water without chlorine, which read hundreds of mV lower).
   */
  private static final double FALL_MV = 150;

  private static final double FALL_BELOW_MG_L = 0.2;

  /** Standard deviation of {@link #LN_CLOUD} in the long run (engineering judgement). */
  private static final double CLOUD_SD = 0.3;

  /** The same if a sensor measures the clouds: the sensor's own error. */
  private static final double CLOUD_SD_MEASURED = 0.1;

  private PoolModel() {}

  /** A bounded factor, exp(range tanh(x/range)). Near 1 its logarithm is x. */
  private static double factor(double x, double range) {
    return StrictMath.exp(range * StrictMath.tanh(x / range));
  }

  /** Slope of its logarithm. */
  private static double dLnFactor(double x, double range) {
    double t = StrictMath.tanh(x / range);
    return 1 - t * t;
  }

  private static double gain(double[] x) {
    return factor(x[LN_GAIN], GAIN_RANGE);
  }

  private static double kit(double[] x) {
    return factor(x[LN_KIT], KIT_RANGE);
  }

  /**
   * log10 of the HOCl (mg/L) of the reference water: 3 mg/L at the present stabiliser, pH 7.5, 25
   * °C.
   */
  static double referenceLogHocl(double cyanuricAcidMgL) {
    return StrictMath.log10(Cyanurate.hypochlorousAcidMgL(3, cyanuricAcidMgL, 7.5, 25));
  }

  private static double warmth(double waterC) {
    return StrictMath.exp(StrictMath.log(2) * (waterC - 25) / DOUBLING_C);
  }

  static Outlook outlook(Gaussian belief, double waterC) {
    double[] x = belief.mean();
    double warmth = warmth(waterC);
    return new Outlook(
        StrictMath.exp(x[LN_FREE_CHLORINE]),
        warmth * StrictMath.exp(x[LN_DARK]),
        warmth * StrictMath.exp(x[LN_STEADY]),
        StrictMath.exp(x[LN_PEOPLE]),
        StrictMath.exp(x[LN_SUN]),
        x[LN_CLOUD],
        gain(x));
  }

  /**
   * Error of a day's loss, as a share of free chlorine, for a standard deviation of the water
   * temperature, °C. The dark losses depend on temperature, by ln 2 per doubling.
   */
  static double lossSd(Gaussian belief, double waterC, double sdC) {
    Outlook o = outlook(belief, waterC);
    double perDay =
        o.darkPerDay() + o.steadyMgLDay() / (o.freeChlorineMgL() + Outlook.HALF_RATE_MG_L);
    return perDay * StrictMath.log(2) / DOUBLING_C * sdC;
  }

  /**
   * Predicts the belief: F⁺ = F e^(−l) + γ u e^(−l/2), l = (θ k + (θ d + p g)/(F + 0.1) + j c s)
   * Δt, see {@link Outlook}. It also gives the Jacobian in logarithms. The deviation of the sun
   * fades, and so does the electrode's passing error.
   */
  static Gaussian predict(
      Gaussian belief,
      Electrode.Trust trust,
      double riseMgL,
      Hour hour,
      double waterC,
      double days) {
    Outlook o = outlook(belief, waterC);
    double f = o.freeChlorineMgL();
    double dark = o.darkPerDay() * days;
    double steady = o.steadyMgLDay() / (f + Outlook.HALF_RATE_MG_L) * days;
    double people = o.peopleMgLDay() * hour.people() / (f + Outlook.HALF_RATE_MG_L) * days;
    double sun = o.sunPerDay() * hour.sun() * StrictMath.exp(o.lnCloud()) * days;
    double next = Math.max(LEAST_MG_L, o.after(f, riseMgL, hour, days, 0));
    double stays = f * StrictMath.exp(-(dark + steady + people + sun)) / next;
    double came = Math.min(1, Math.max(0, 1 - stays));
    double bears = stays + came / 2;
    double clears = StrictMath.exp(-days / Outlook.CLOUD_DAYS);
    double[] a = new double[STATES * STATES];
    for (int i = 0; i < STATES; i++) {
      a[i * STATES + i] = 1;
    }
    // The first row is that of free chlorine.
    a[LN_FREE_CHLORINE] = stays + (steady + people) * f / (f + Outlook.HALF_RATE_MG_L) * bears;
    a[LN_DARK] = -dark * bears;
    a[LN_STEADY] = -steady * bears;
    a[LN_PEOPLE] = -people * bears;
    a[LN_SUN] = -sun * bears;
    a[LN_CLOUD] = -sun * bears;
    a[LN_GAIN] = came * dLnFactor(belief.mean()[LN_GAIN], GAIN_RANGE);
    a[LN_CLOUD * STATES + LN_CLOUD] = clears;
    double settles = StrictMath.exp(-days / WANDER_DAYS);
    a[WANDER * STATES + WANDER] = settles;
    double[] m = belief.mean().clone();
    m[LN_FREE_CHLORINE] = StrictMath.log(next);
    m[LN_CLOUD] *= clears;
    m[WANDER] *= settles;
    m[LN_GAIN] -= days * FADING_PER_DAY;
    double[] q = noise(f, o.ratePerDay(f, hour, 0), hour, days, clears);
    // Ornstein–Uhlenbeck processes: however long the step, they never exceed their stationary
    // deviation.
    q[WANDER] = square(trust.wanderMv) * (1 - square(settles));
    q[OFFSET] = square(trust.creepMv) * days;
    return bounded(belief.predict(m, a, q));
  }

  /** The same belief, with free chlorine, losses and gain limited to their possible ranges. */
  static Gaussian bounded(Gaussian belief) {
    double x = belief.mean()[LN_FREE_CHLORINE];
    double kept = Math.max(StrictMath.log(LEAST_MG_L), Math.min(StrictMath.log(MOST_MG_L), x));
    Gaussian next =
        belief
            .shifted(LN_FREE_CHLORINE, kept - x)
            .narrowed(LN_FREE_CHLORINE, LN_FREE_CHLORINE_SD_MAX);
    for (int state : OF_LOSSES) {
      double loss = next.mean()[state];
      double keptLoss = Math.max(LN_LOSS_MIN, Math.min(LN_LOSS_MAX, loss));
      next = next.shifted(state, keptLoss - loss).narrowed(state, LOSS_SD_MAX);
    }
    return next.narrowed(LN_GAIN, GAIN_SD_MAX);
  }

  /**
   * Process noise. The unpredictable part is a larger or smaller loss. Free chlorine never comes
   * from nowhere, so if little is lost, little is uncertain.
   */
  private static double[] noise(
      double f, double lossPerDay, Hour hour, double days, double clears) {
    double[] q = new double[STATES];
    // The number of bathers is unknown. What they bring is a loss in mg/L, so it is a larger share
    // when little is left.
    double guests = DAY_WANDER_MG_L / (f + 0.2) * f / (f + 0.3) * StrictMath.sqrt(hour.people());
    double cloud = hour.measured() ? CLOUD_SD_MEASURED : CLOUD_SD;
    q[LN_FREE_CHLORINE] =
        (square(NIGHT_WANDER) + square(LOSS_WANDER * lossPerDay) + square(guests)) * days;
    q[LN_DARK] = square(DARK_WANDER) * days;
    q[LN_STEADY] = square(STEADY_WANDER) * days;
    q[LN_PEOPLE] = square(PEOPLE_WANDER) * days;
    q[LN_SUN] = square(SUN_WANDER) * days;
    q[LN_CLOUD] = square(cloud) * (1 - square(clears));
    q[LN_GAIN] = square(GAIN_WANDER) * days;
    q[LN_KIT] = square(KIT_WANDER) * days;
    return q;
  }

  /**
   * E = o + w + b (log10 [HOCl] − reference) − g log10(1 + F₀/F) + c (pH − 7.5) + d (T − 25), with
   * b given. For a mute electrode it is o + w alone.
   *
   * @param electrode the assumed electrode
   * @param referenceLogHocl result of {@link PoolModel#referenceLogHocl} at this stabiliser
   */
  record OrpSensor(
      Electrode electrode,
      double cyanuricAcidMgL,
      double ph,
      double waterC,
      double referenceLogHocl)
      implements Gaussian.Sensor {
    OrpSensor(Electrode electrode, double cyanuricAcidMgL, double ph, double waterC) {
      this(electrode, cyanuricAcidMgL, ph, waterC, PoolModel.referenceLogHocl(cyanuricAcidMgL));
    }

    @Override
    public double expected(double[] x) {
      return electrode.mute() ? x[OFFSET] + x[WANDER] : expected(x, x[LN_FREE_CHLORINE]);
    }

    /** The same at another level of free chlorine. */
    double expected(double[] x, double lnFreeChlorine) {
      return x[OFFSET]
          + x[WANDER]
          + beyond(lnFreeChlorine)
          + x[PER_PH] * (ph - 7.5)
          + x[PER_C] * (waterC - 25);
    }

    /** Expected potential with practically no chlorine. A lower reading says no more. */
    double leastMv(double[] x) {
      return electrode.mute() ? Double.NEGATIVE_INFINITY : expected(x, StrictMath.log(LEAST_MG_L));
    }

    @Override
    public double[] slope(double[] x) {
      double f = x[LN_FREE_CHLORINE];
      double[] h = new double[STATES];
      h[OFFSET] = 1;
      h[WANDER] = 1;
      if (!electrode.mute()) {
        h[LN_FREE_CHLORINE] = (beyond(f + 0.01) - beyond(f)) / 0.01;
        h[PER_PH] = ph - 7.5;
        h[PER_C] = waterC - 25;
      }
      return h;
    }

    /** Effect of free chlorine on the potential, mV above the reference water. */
    private double beyond(double lnFreeChlorine) {
      double f = StrictMath.exp(lnFreeChlorine);
      double hocl = Cyanurate.hypochlorousAcidMgL(f, cyanuricAcidMgL, ph, waterC);
      double decades = StrictMath.log10(Math.max(1e-5, hocl)) - referenceLogHocl;
      return electrode.slopeMv() * decades - FALL_MV * StrictMath.log10(1 + FALL_BELOW_MG_L / f);
    }
  }

  /**
   * A kit reads F times its own bias. The filter uses ln(reading + ε), so that a reading near 0
   * says only that there is little. ε is the least that a kit can tell from nothing.
   */
  record KitSensor() implements Gaussian.Sensor {
    static final double TELLS_MG_L = 0.2;

    /** The reading on the sensor's scale. */
    static double of(double readMgL) {
      return StrictMath.log(readMgL + TELLS_MG_L);
    }

    /** The deviation of a reading on the sensor's scale. */
    static double sd(double readMgL, double sdMgL) {
      return sdMgL / (readMgL + TELLS_MG_L);
    }

    /**
     * The same for a reading that differs from the expected one: by the mean slope of the logarithm
     * between the two. With the slope at a reading of 0, the steepest one, a kit that finds nothing
     * where much is expected would count for almost nothing.
     */
    static double sd(double readMgL, double expectedMgL, double sdMgL) {
      double stepMgL = expectedMgL - readMgL;
      return stepMgL > 0.01
          ? sdMgL * (of(expectedMgL) - of(readMgL)) / stepMgL
          : sd(readMgL, sdMgL);
    }

    /** The reading from the value on the sensor's scale, mg/L. */
    static double readMgL(double sensed) {
      return StrictMath.exp(sensed) - TELLS_MG_L;
    }

    @Override
    public double expected(double[] x) {
      return of(read(x));
    }

    @Override
    public double[] slope(double[] x) {
      double read = read(x);
      double share = read / (read + TELLS_MG_L);
      double[] h = new double[STATES];
      h[LN_FREE_CHLORINE] = share;
      h[LN_KIT] = share * dLnFactor(x[LN_KIT], KIT_RANGE);
      return h;
    }

    private static double read(double[] x) {
      return StrictMath.exp(x[LN_FREE_CHLORINE]) * kit(x);
    }
  }

  private static double square(double x) {
    return x * x;
  }
}
