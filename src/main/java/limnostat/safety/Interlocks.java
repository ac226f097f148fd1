package limnostat.safety;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.measure.Measurements;

/** Evaluates the matrix: takes the demand and returns what is left of it, and why. */
public final class Interlocks {
  private Interlocks() {}

  /**
   * What the outputs may do.
   *
   * @param active causes that are active now
   * @param chlorine most severe effect on chlorine
   * @param acid most severe effect on acid
   */
  public record Permission(Set<Cause> active, Effect chlorine, Effect acid) {
    public Effect of(Output output) {
      return switch (output) {
        case CHLORINE -> chlorine;
        case ACID -> acid;
      };
    }

    public boolean held(Output output) {
      return of(output) == Effect.INHIBIT;
    }

    /**
     * What is left of a demanded duty, 0–1; the fallback is the most that a limited output may
     * give.
     */
    public double trim(Output output, double duty, double fallback) {
      return switch (of(output)) {
        case NONE -> duty;
        case LIMIT -> Math.min(duty, fallback);
        case INHIBIT -> 0;
      };
    }
  }

  /**
   * The final veto, after modulation: an inhibited output is off, and acid is off whenever chlorine
   * is on.
   *
   * @return what the outputs do
   */
  public static Outputs veto(
      Permission permission, double chlorine, double acid, boolean pumpRequest) {
    double chlorineLeft = permission.held(Output.CHLORINE) ? 0 : chlorine;
    double acidLeft = permission.held(Output.ACID) || chlorineLeft > 0 ? 0 : acid;
    return new Outputs(chlorineLeft, acidLeft, pumpRequest);
  }

  public record Result(Permission permission, SafetyState state) {}

  public static Result step(
      SafetyLimits limits, SafetyState state, Observed seen, double elapsedS) {
    Map<Output, Double> sinceOnS = new EnumMap<>(Output.class);
    for (Output output : Output.values()) {
      boolean on = seen.last().get(output) > 0;
      // An interruption proves nothing: a process that died may have fed until its end.
      sinceOnS.put(output, on || seen.interrupted() ? 0 : state.sinceOnS().get(output) + elapsedS);
    }
    // Nothing was observed during an interruption, so no delay ran and nothing was confirmed.
    double seenS = seen.interrupted() ? 0 : elapsedS;
    BlindFeed blind =
        state
            .blind()
            .step(
                limits.blindFeedMgL(),
                sight(state.active(), seen),
                seen.plant().freeChlorineTested(),
                seen.plant().fedMgL(),
                seen.plant().unprovenMgL(),
                seenS);

    RunHealth run = state.run().step(limits.run(), seen.overran(), elapsedS);
    Set<Cause> present =
        Detection.detect(
            limits,
            seen,
            state.present(),
            state.active(),
            sinceOnS.get(Output.CHLORINE),
            sinceOnS.get(Output.ACID),
            blind,
            run);
    ProcessWatch watched =
        state
            .watched()
            .step(
                limits.process(),
                new Response.Inputs(
                    seen.plant().fedMgL(),
                    seen.measured().orpMv(),
                    seen.estimate().orpSetpointMv(),
                    seen.plant().tested(),
                    seen.superchlorinating()),
                new AcidResponse.Inputs(
                    seen.plant().acidFallPh(), seen.measured().ph(), seen.plant().phAgreed()),
                elapsedS);
    if (watched.response().now()) {
      present.add(Cause.NO_RESPONSE);
    }
    if (watched.response().falling(limits.process().noResponseMgL())) {
      present.add(Cause.ORP_FALLING);
    }
    if (watched.acid().unanswered()) {
      present.add(Cause.ACID_NO_RESPONSE);
    }
    EnumSet<Cause> active = EnumSet.noneOf(Cause.class);
    Map<Cause, Double> pendingS = new EnumMap<>(Cause.class);
    for (Cause cause : present) {
      double forS =
          cause.delayS() == 0
              ? 0
              : state.pendingS().getOrDefault(cause, 0.0) + countedS(cause, seen, seenS);
      if (forS >= cause.delayS()) {
        active.add(cause);
      }
      if (cause.delayS() > 0) {
        pendingS.put(cause, forS);
      }
    }
    for (Cause cause : state.active()) {
      if (cause.latching()) {
        active.add(cause);
      } else if (cause.delayOffS() > 0 && !present.contains(cause)) {
        double goneS = state.pendingS().getOrDefault(cause, 0.0) + seenS;
        if (goneS < cause.delayOffS()) {
          active.add(cause);
          pendingS.put(cause, goneS);
        }
      }
    }
    return new Result(
        new Permission(active, effect(active, Output.CHLORINE), effect(active, Output.ACID)),
        new SafetyState(active, present, pendingS, sinceOnS, blind, watched, run));
  }

  /**
   * A cell that reverses its polarity pauses for some minutes, and one on period of the output may
   * be shorter than that pause. So the delay for a missing current counts the output's on time over
   * all its on periods, until there is a current.
   */
  private static double countedS(Cause cause, Observed seen, double seenS) {
    boolean rests = cause == Cause.CELL_CURRENT_MISSING && !(seen.last().get(Output.CHLORINE) > 0);
    return rests ? 0 : seenS;
  }

  /** A cover limits chlorine because there is no sun, not because the water cannot be measured. */
  private static BlindFeed.Sight sight(Set<Cause> activeBefore, Observed seen) {
    Measurements m = seen.measured();
    boolean consistent =
        !seen.estimate().consistency().lost() && !activeBefore.contains(Cause.ORP_FALLING);
    if (consistent && m.orpMv().fresh() && m.ph().fresh() && m.waterC().fresh()) {
      return BlindFeed.Sight.WELL;
    }
    Set<Cause> causes = EnumSet.noneOf(Cause.class);
    causes.addAll(activeBefore);
    causes.remove(Cause.COVER_CLOSED);
    return effect(causes, Output.CHLORINE) == Effect.LIMIT
        ? BlindFeed.Sight.LIMITED
        : BlindFeed.Sight.NOTHING;
  }

  /** Whether a latched cause can be reset: it is active and its condition is gone. */
  public static boolean resettable(SafetyState state, Cause cause) {
    return cause.latching() && state.active().contains(cause) && !state.present().contains(cause);
  }

  /** The state with a latch released; call only where {@link #resettable} holds. */
  public static SafetyState reset(SafetyState state, Cause cause) {
    EnumSet<Cause> active = EnumSet.copyOf(state.active());
    active.remove(cause);
    return new SafetyState(
        active,
        state.present(),
        state.pendingS(),
        state.sinceOnS(),
        state.blind(),
        cause == Cause.NO_RESPONSE ? state.watched().forgotten() : state.watched(),
        state.run());
  }

  /** The most severe effect of a set of causes: a maximum, so their order does not matter. */
  public static Effect effect(Set<Cause> causes, Output output) {
    Effect worst = Effect.NONE;
    for (Cause cause : causes) {
      Effect effect = cause.on(output);
      worst = effect.compareTo(worst) > 0 ? effect : worst;
    }
    return worst;
  }
}
