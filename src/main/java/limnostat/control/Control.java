package limnostat.control;

import limnostat.estimate.Estimate;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.Hour;
import limnostat.estimate.SunOnWater;
import limnostat.measure.Measurements;

/**
 * The control law: a plan of the day by the estimate; below it the learned demand, spread over the
 * hours in which the pump runs, as feed-forward, with a PI on ORP as feedback. {@link Rung} says
 * which it stands on. The interlocks take from what it demands.
 */
public final class Control {
  /**
   * A difference left by a change of mode fades with this time constant, s (engineering judgement).
   */
  private static final double BUMP_FADE_S = 900;

  /** Slope of the approach to a superchlorination's level, duty a mg/L (engineering judgement). */
  private static final double SUPERCHLORINATION_GAIN = 1;

  /** The plan is made anew this often, s. */
  private static final double PLAN_S = 600;

  /** A whole day's mean under a cover. */
  private static final Hour SUNLESS = new Hour(0, 1);

  private Control() {}

  /**
   * What the law works with on this scan.
   *
   * @param pool what is told of the pool
   * @param feed the chlorine output
   * @param acidFitted whether there is an acid output
   * @param acidFree whether nothing but the separation held acid on the last scan: only then does a
   *     turn begin, or chlorine would pause for acid that cannot come
   * @param chlorineFree whether no interlock held chlorine on the last scan: only then does the
   *     integral learn
   * @param acidGivenMl acid that went in since the last scan, mL
   * @param allowed the best rung that the interlocks of the last scan leave
   * @param sun what is known of the sun on the water
   */
  public record Inputs(
      Measurements measured,
      Estimate estimate,
      EstimateSettings pool,
      Feed feed,
      boolean acidFitted,
      boolean acidFree,
      boolean chlorineFree,
      double acidGivenMl,
      Rung allowed,
      SunOnWater sun) {}

  /**
   * What is demanded of the outputs.
   *
   * @param chlorineDuty 0–1
   * @param fallbackDuty the most that chlorine may get while a signal has failed, 0–1
   * @param acidDuty 0–1
   * @param pumpRequest whether circulation is wanted
   */
  public record Demand(
      double chlorineDuty, double fallbackDuty, double acidDuty, boolean pumpRequest) {}

  public record Result(Demand demand, ControlState state) {}

  public static Result step(
      ControlSettings settings, ControlState state, Inputs in, double unixTimeS, double elapsedS) {
    boolean fresh = in.measured().orpMv().fresh();
    Superchlorination raise = state.superchlorination().step(in.estimate(), elapsedS);
    AcidTurn acid = acidTurn(settings, state, in, elapsedS);
    double feedForward = feedForward(settings, in);
    Feedback blind = Feedback.blind(state, feedForward);
    boolean replan = state.planS() + elapsedS >= PLAN_S;
    double plan =
        replan
            ? Plan.duty(
                settings,
                in.estimate().outlook(),
                state.targetMgL(),
                in.feed().rateGH() / in.pool().volumeM3(),
                at -> in.sun().hourAt(in.pool(), at, unixTimeS),
                unixTimeS)
            : state.plan();
    boolean planned = in.estimate().trusted(state.ladder().rung() != Rung.ORP_ALONE);
    Feedback orpAlone =
        Feedback.step(
            settings.tuning(),
            state.integral(),
            feedForward,
            in.estimate().orpSetpointMv() - in.measured().orpMv().orElse(0),
            in.chlorineFree()
                && state.mode() == Mode.AUTO
                && !planned
                && !raise.running()
                && !acid.running(),
            elapsedS);
    // The ladder, see Rung.
    Feedback feedback =
        !fresh
            ? blind
            : planned ? new Feedback(plan, state.integral(), plan - feedForward) : orpAlone;

    Ladder ladder = state.ladder().step(rung(state, in, planned), elapsedS);
    double law = fresh && raise.running() ? towards(raise, in.estimate()) : feedback.duty();
    double bump =
        state.transfer()
            ? state.lastDuty() - law
            : state.bump() * StrictMath.exp(-elapsedS / BUMP_FADE_S);
    double demanded =
        switch (state.mode()) {
          case AUTO -> fresh ? Feedback.clip(law + bump) : law;
          case MANUAL -> state.manualDuty();
          case OFF -> 0;
        };
    // While acid has its turn chlorine pauses, or the separation would never pass.
    double duty = acid.running() ? 0 : demanded;
    boolean good = fresh && state.mode() == Mode.AUTO && !raise.running();
    return new Result(
        new Demand(
            duty,
            in.sun().covered()
                ? Math.min(blind.duty(), sunless(settings, state, in))
                : blind.duty(),
            acid.running() ? 1 : 0,
            raise.running() || settings.pumpWanted(unixTimeS)),
        new ControlState(
            state.mode(),
            state.manualDuty(),
            state.targetMgL(),
            state.fileTargetMgL(),
            feedback.integral(),
            feedback.trim(),
            demanded,
            good ? demanded : state.lastGoodDuty(),
            false,
            bump,
            plan,
            replan ? 0 : state.planS() + elapsedS,
            raise,
            acid,
            ladder,
            capacity(settings, state, in, replan, ladder, unixTimeS, elapsedS)));
  }

  /**
   * What the law stands on in this scan. While water stands at the probes nothing is dosed and
   * nothing is to be told: a night without flow leaves the ladder as it was.
   */
  private static Rung rung(ControlState state, Inputs in, boolean planned) {
    if (state.mode() != Mode.AUTO) {
      return Rung.NONE;
    }
    boolean resting = !in.measured().flow() || !in.measured().poolWater();
    Rung law =
        resting
            ? state.ladder().rung()
            : !in.measured().orpMv().fresh()
                ? Rung.LEARNED_DEMAND
                : planned ? Rung.PLAN : Rung.ORP_ALONE;
    return Rung.lower(law, in.allowed());
  }

  private static Capacity capacity(
      ControlSettings settings,
      ControlState state,
      Inputs in,
      boolean replan,
      Ladder ladder,
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
    return switch (ladder.rung()) {
      case PLAN, ORP_ALONE -> capacity.step(elapsedS);
      // What is fed by hand, or without a probe, is no sign of what the output could.
      case LEARNED_DEMAND, NONE -> capacity;
    };
  }

  /**
   * The day's demand over what the output can give in the pump's hours: u_ff = d V/(r t_window).
   */
  private static double feedForward(ControlSettings settings, Inputs in) {
    double demandGDay = in.estimate().demandMgLDay() * in.pool().volumeM3();
    return demandGDay / (in.feed().rateGH() * settings.pumpS() / 3600);
  }

  /** The same without the sun, as under a closed cover. */
  private static double sunless(ControlSettings settings, ControlState state, Inputs in) {
    double ratePerDay = in.estimate().outlook().ratePerDay(state.targetMgL(), SUNLESS, 1);
    double demandGDay = ratePerDay * state.targetMgL() * in.pool().volumeM3();
    return Feedback.clip(demandGDay / (in.feed().rateGH() * settings.pumpS() / 3600));
  }

  private static double towards(Superchlorination raise, Estimate estimate) {
    return Feedback.clip(SUPERCHLORINATION_GAIN * (raise.levelMgL() - estimate.freeChlorineMgL()));
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
