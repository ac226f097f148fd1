package limnostat.estimate;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.measure.Status;
import limnostat.rig.Fixtures;

/**
 * A truth made by the filter's own model, drawn from what the filter believes at its start, with an
 * electrode, a person's kit and a simple feeder; and the filter beside it. Steps of five minutes.
 */
final class ModelledPool {
  static final EstimateSettings POOL = Fixtures.saltPool(3);

  private static final double TARGET_MG_L = 3;
  private static final double STEP_S = 300;
  private static final double STEP_DAYS = STEP_S / 86_400;
  private static final double FULL_DUTY_MG_L_H = 0.5;

  private final Random random;
  private final Electrode electrode;
  private final double driftMvDay;
  private double[] x;
  private EstimateState state = Estimator.start(POOL, TARGET_MG_L);
  private Estimate estimate;
  private double orpErrorMv;
  private double unixTimeS = 1_780_272_000; // 2026-06-01T00:00:00Z
  private double duty = 0.2;

  /**
   * @param electrode what it is in truth
   * @param driftMvDay what it creeps beside, mV a day, which the filter does not know
   */
  ModelledPool(long seed, Electrode electrode, double driftMvDay) {
    this.random = new Random(seed);
    this.electrode = electrode;
    this.driftMvDay = driftMvDay;
    this.x = state.belief().mean().clone();
    for (int i = 0; i < x.length; i++) {
      double sd =
          i == PoolModel.WANDER
              ? electrode.trust().wanderMv
              : Math.sqrt(state.belief().variance(i));
      x[i] += random.nextGaussian() * sd;
    }
  }

  double freeChlorineMgL() {
    return Math.exp(x[PoolModel.LN_FREE_CHLORINE]);
  }

  Estimate estimate() {
    return estimate;
  }

  EstimateState state() {
    return state;
  }

  void step(int number) {
    double waterC = 26 + 2 * Math.sin(number / 2016.0 * 2 * Math.PI);
    double ph = 7.5 + 0.2 * Math.sin(number / 2880.0 * 2 * Math.PI);
    Hour hour = Hour.of(POOL, unixTimeS);
    boolean pump = hour.sun() > 0.5;
    double riseMgL = pump ? duty * FULL_DUTY_MG_L_H * STEP_S / 3600 : 0;
    move(riseMgL, hour, waterC);
    unixTimeS += STEP_S;
    if (number % 6 == 0) { // errors of the electrode last for half an hour
      orpErrorMv = electrode.trust().scatterMv * random.nextGaussian();
    }
    double orpMv =
        new PoolModel.OrpSensor(electrode, POOL.slow().cyanuricAcidMgL().getAsDouble(), ph, waterC)
                .expected(x)
            + orpErrorMv;
    Estimator.Result result =
        Estimator.step(
            POOL,
            state,
            measured(orpMv, ph, waterC),
            riseMgL * POOL.volumeM3(),
            TARGET_MG_L,
            Hour.of(POOL, unixTimeS),
            STEP_S);
    state = result.state();
    estimate = result.estimate();
    if (number % 288 == 0) {
      // Once a day, as an owner would: what is lost, and a third of what is lacking.
      double lackingMgL = TARGET_MG_L - estimate.freeChlorineMgL();
      double pumpH = 10;
      duty =
          Math.min(
              1,
              Math.max(0, (estimate.demandMgLDay() + lackingMgL / 3) / (FULL_DUTY_MG_L_H * pumpH)));
    }
  }

  /** By the filter's own prediction: its mean from here, and what it takes for noise. */
  private void move(double riseMgL, Hour hour, double waterC) {
    Gaussian here = new Gaussian(x, new double[x.length * x.length]);
    Gaussian next = PoolModel.predict(here, electrode.trust(), riseMgL, hour, waterC, STEP_DAYS);
    x = next.mean().clone();
    for (int i = 0; i < x.length; i++) {
      x[i] += Math.sqrt(next.variance(i)) * random.nextGaussian();
    }
    x[PoolModel.OFFSET] += driftMvDay * STEP_DAYS;
    x = PoolModel.bounded(new Gaussian(x, new double[x.length * x.length])).mean().clone();
  }

  /** A kit that scatters as the filter takes one with fine steps to. */
  void test() {
    double truth = freeChlorineMgL() * Math.exp(x[PoolModel.LN_KIT]);
    double read = truth + new KitSteps(0.1).sdMgL(truth) * random.nextGaussian();
    state =
        Estimator.test(
            state,
            WaterTest.EMPTY.with(Tested.FREE_CHLORINE, Math.max(0, Math.rint(20 * read) / 20)));
  }

  /** Good values of pool water that flows. */
  static Measurements measured(double orpMv, double ph, double waterC) {
    return new Measurements(
        value(orpMv),
        value(ph),
        value(waterC),
        true,
        Optional.empty(),
        600,
        true,
        Optional.empty(),
        OptionalDouble.empty(),
        false,
        false,
        Outside.UNKNOWN);
  }

  private static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }
}
