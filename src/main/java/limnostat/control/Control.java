package limnostat.control;

import limnostat.estimate.Estimate;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Hour;
import limnostat.estimate.SunOnWater;
import limnostat.measure.Measurements;

/**
 * The control law: a plan of the coming day from everything known about the water, and how well it
 * is known. While nothing trustworthy measures chlorine, it feeds at most the learned demand,
 * within the blind budget. {@link ControlLevel} says which of the two applies. The interlocks can
 * only reduce the demand.
 */
public final class Control {
  /** The bump left by a change of mode fades with this time constant, s (engineering judgement). */
  private static final double BUMP_FADE_S = 900;

  /** Gain of the approach to a superchlorination's level, duty per mg/L (engineering judgement). */
  private static final double SUPERCHLORINATION_GAIN = 1;

  /** Share of the blind budget that the electrode alone may feed beyond the demand. */
  private static final double BEYOND = 0.5;

  /** At most this many tests in a row count towards what is fed at once (engineering judgement). */
  private static final int RESTORING_TESTS = 3;

  /** A whole day's mean under a cover. */
  private static final Hour SUNLESS = new Hour(0, 1);

  private Control() {}

  /**
   * Inputs of the law on this scan.
   *
   * @param pool the pool's configuration
   * @param feed the chlorine output
   * @param acidFitted whether there is an acid output
   * @param acidFree whether nothing but the separation inhibited acid on the last scan; a turn
   *     begins only then, or chlorine would pause for acid that cannot be fed
   * @param acidGivenMl acid that went in since the last scan, mL
   * @param givenMgL chlorine that went in since the last scan, mg/L of the pool by the label
   * @param blindBudgetMgL the blind budget, mg/L of the pool
   * @param blindLeftMgL what may be fed while nothing trustworthy measures chlorine, mg/L of the
   *     pool
   * @param allowed the best level that the interlocks of the last scan allow
   * @param sun what is known about the sun on the water
   */
  public record Inputs(
      Measurements measured,
      Estimate estimate,
      EstimateSettings pool,
      Feed feed,
      boolean acidFitted,
      boolean acidFree,
      double acidGivenMl,
      double givenMgL,
      double blindBudgetMgL,
      double blindLeftMgL,
      ControlLevel allowed,
      SunOnWater sun) {
    double riseMgLH() {
      return feed.rateGH() / pool.volumeM3();
    }
  }

  public record Result(DutyRequest demand, ControlState state) {}

  public static Result step(
      ControlSettings settings, ControlState state, Inputs in, double unixTimeS, double elapsedS) {
    boolean fresh = in.measured().orpMv().fresh();
    Superchlorination raise = state.superchlorination().step(in.estimate(), elapsedS);
    AcidTurn acid = acidTurn(settings, state, in, elapsedS);
    boolean replan = state.plan().due(elapsedS);
    Plan plan =
        replan
            ? Plan.of(planInputs(settings, state, in, unixTimeS), in.estimate())
            : state.plan().aged(elapsedS);
    Doubt doubt =
        state.mode() == Mode.AUTO && !raise.running()
            ? state
                .doubt()
                .step(
                    in.estimate(),
                    plan,
                    in.givenMgL(),
                    in.riseMgLH(),
                    in.blindBudgetMgL(),
                    elapsedS)
            : state.doubt();
    double fallback = fallback(settings, state, in);
    boolean usedUp = in.estimate().usedUp() > 0;
    double budgetMgL = usedUp ? restoring(state, in) : BEYOND * in.blindBudgetMgL();
    double accounted = Math.max(plan.balanceDuty(), learnedDuty(settings, in));
    Beyond beyond =
        state
            .beyond()
            .step(
                in.givenMgL(),
                usedUp ? 0 : accounted * in.riseMgLH() * elapsedS / 3600,
                budgetMgL,
                usedUp ? 0 : elapsedS);
    double most = accounted + beyond.dutyMax(budgetMgL, in.riseMgLH());
    // Where a test found the chlorine used up, whatever consumed it also consumes what is fed. So
    // the whole budget goes in once, whatever the estimate says.
    boolean restores = usedUp && !beyond.spent(budgetMgL);
    double least = doubt.leastDuty(plan, in.blindBudgetMgL(), in.riseMgLH());
    double planned = Math.max(Math.min(most, restores ? 1 : plan.duty()), least);
    double law =
        !fresh
            ? Math.min(planned, fallback)
            : raise.running() ? towards(raise, in.estimate()) : planned;
    double bump =
        state.transfer()
            ? state.lastDuty() - law
            : state.bump() * StrictMath.exp(-elapsedS / BUMP_FADE_S);
    double demanded =
        switch (state.mode()) {
          case AUTO -> fresh ? clip(law + bump) : law;
          case MANUAL -> state.manualDuty();
          case OFF -> 0;
        };
    // Chlorine pauses during an acid turn, or the separation time would never pass.
    double duty = acid.running() ? 0 : demanded;
    SettledLevel level = state.level().step(level(state, in), elapsedS);
    return new Result(
        new DutyRequest(
            duty,
            fallback,
            acid.running() ? 1 : 0,
            raise.running() || settings.pumpWanted(unixTimeS)),
        new ControlState(
            state.mode(),
            state.manualDuty(),
            state.targetMgL(),
            state.fileTargetMgL(),
            demanded,
            false,
            bump,
            plan,
            raise,
            acid,
            level,
            capacity(settings, state, in, replan, level, unixTimeS, elapsedS),
            beyond,
            doubt));
  }

  /**
   * What is fed at once after a test that found the chlorine used up, mg/L of the pool. It is as
   * much as the target, within the blind budget, since one test may be misread. It grows with the
   * number of such tests in a row, since several are convincing.
   */
  private static double restoring(ControlState state, Inputs in) {
    int tests = Math.min(RESTORING_TESTS, in.estimate().usedUp());
    return tests * Math.min(in.blindBudgetMgL(), state.targetMgL());
  }

  private static Plan.Inputs planInputs(
      ControlSettings settings, ControlState state, Inputs in, double unixTimeS) {
    return new Plan.Inputs(
        settings,
        state.targetMgL(),
        in.riseMgLH(),
        at -> in.sun().hourAt(in.pool(), at, unixTimeS),
        unixTimeS);
  }

  /**
   * The control level in this scan. While the water at the probes stands still, nothing is dosed
   * and there is nothing to report, so a night without flow leaves the level as it was.
   */
  private static ControlLevel level(ControlState state, Inputs in) {
    if (state.mode() != Mode.AUTO) {
      return ControlLevel.NONE;
    }
    boolean resting = !in.measured().flow() || !in.measured().poolWater();
    ControlLevel law =
        resting
            ? state.level().settled()
            : in.measured().orpMv().fresh() ? ControlLevel.PLAN : ControlLevel.LEARNED_DEMAND;
    return ControlLevel.lower(law, in.allowed());
  }

  private static Capacity capacity(
      ControlSettings settings,
      ControlState state,
      Inputs in,
      boolean replan,
      SettledLevel level,
      double unixTimeS,
      double elapsedS) {
    Capacity capacity =
        replan
            ? state
                .capacity()
                .by(
                    in.estimate(),
                    new Capacity.Inputs(
                        settings,
                        in.feed(),
                        in.pool().volumeM3(),
                        state.targetMgL(),
                        at -> in.sun().hourAt(in.pool(), at, unixTimeS),
                        unixTimeS))
            : state.capacity();
    return switch (level.settled()) {
      case PLAN -> capacity.step(elapsedS);
      // Feeding by hand, or without a probe, does not show what the output could do.
      case LEARNED_DEMAND, NONE -> capacity;
    };
  }

  /** The learned demand, spread over the hours in which the pump runs. */
  private static double learnedDuty(ControlSettings settings, Inputs in) {
    return clip(in.estimate().demandMgLDay() / (in.riseMgLH() * settings.pumpS() / 3600));
  }

  /**
   * The most that a limited output may feed: the learned demand, and no more than the ration of the
   * blind budget. Under a cover the demand counts without the sun.
   */
  private static double fallback(ControlSettings settings, ControlState state, Inputs in) {
    boolean seen = in.sun().covered() && seen(in);
    double demandMgLDay =
        in.sun().covered()
            ? Math.min(
                in.estimate().demandMgLDay(),
                in.estimate().outlook().ratePerDay(state.targetMgL(), SUNLESS, 1)
                    * state.targetMgL())
            : in.estimate().demandMgLDay();
    double rationMgLDay = seen ? Double.POSITIVE_INFINITY : Ration.mgLDay(in.blindLeftMgL());
    return clip(Math.min(demandMgLDay, rationMgLDay) / (in.riseMgLH() * settings.pumpS() / 3600));
  }

  /** Whether the cover is the only limit on chlorine: the water is measured as well as ever. */
  private static boolean seen(Inputs in) {
    return in.allowed() == ControlLevel.PLAN
        && in.measured().orpMv().fresh()
        && in.measured().ph().fresh()
        && in.measured().waterC().fresh()
        && !in.estimate().consistency().lost();
  }

  private static double clip(double duty) {
    return Math.max(0, Math.min(1, duty));
  }

  private static double towards(Superchlorination raise, Estimate estimate) {
    return clip(SUPERCHLORINATION_GAIN * (raise.levelMgL() - estimate.freeChlorineMgL()));
  }

  private static AcidTurn acidTurn(
      ControlSettings settings, ControlState state, Inputs in, double elapsedS) {
    if (!in.acidFitted() || state.mode() == Mode.OFF) {
      return AcidTurn.IDLE;
    }
    boolean may = in.acidFree() && in.measured().ph().fresh();
    double ph = may ? in.measured().ph().orElse(Double.NaN) : Double.NaN;
    return state
        .acid()
        .step(ph, settings.phTarget(), in.pool().volumeM3(), in.acidGivenMl(), elapsedS);
  }
}
