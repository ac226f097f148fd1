package limnostat.actuate;

/**
 * Turns a demanded duty into a relay's on and off.
 *
 * <p>Time proportioning by a running balance b = ∫(duty − output) dt of seconds owed: off until the
 * balance has grown to what one cycle's on time takes, on until it is paid. At a steady duty d that
 * gives the period T exactly: off for (1 − d) T the balance grows to d (1 − d) T, on for d T it
 * falls back to 0. Nothing is lost to rounding, minimum times or an irregular scan: the remainder
 * carries over, across restarts too. What an interlock takes away is not owed: the balance stands
 * still, so that nothing is made up for in a slug. More than one cycle is never owed.
 */
public final class Modulator {
  private Modulator() {}

  /**
   * What is remembered of one output.
   *
   * @param output what it does now, 0–1
   * @param sinceS for how long it has been on (or off), s
   * @param lockedS for how long it still must stay off, s: minimum off time or rest
   * @param balanceS seconds owed (positive) or given ahead (negative)
   */
  public record State(double output, double sinceS, double lockedS, double balanceS) {
    public boolean on() {
      return output > 0;
    }
  }

  /** Off since this moment: what went before is not known, so the minimum off time holds. */
  public static State start(OutputSettings settings) {
    return new State(0, 0, settings.minOffS(), 0);
  }

  /**
   * In a new process: off since this moment, what was owed still owed. The saved state may be older
   * than the end of a longest run, so the rest holds.
   */
  public static State interrupted(OutputSettings settings, State state) {
    double lockedS = Math.max(settings.minOffS(), settings.restS());
    return new State(0, 0, Math.max(lockedS, state.lockedS()), state.balanceS());
  }

  /**
   * One step: first what passed since the last scan under the last output, then the output from now
   * on.
   *
   * @param duty demanded, 0–1
   * @param held whether an interlock holds the output off: off at once, whatever the minimum on
   *     time
   * @param elapsedS time since the last scan, s
   */
  public static State step(
      OutputSettings settings, State state, double duty, boolean held, double elapsedS) {
    double balanceS = held ? state.balanceS() : balance(settings, state, duty, elapsedS);
    State passed =
        new State(
            state.output(),
            state.sinceS() + elapsedS,
            Math.max(0, state.lockedS() - elapsedS),
            balanceS);
    boolean rest = passed.on() && passed.sinceS() >= settings.longestRunS();
    double output = held || rest ? 0 : wanted(settings, passed, duty);
    if (output > 0 == passed.on()) {
      return new State(output, passed.sinceS(), passed.lockedS(), balanceS);
    }
    double lockedS =
        output > 0 ? 0 : rest ? Math.max(settings.restS(), settings.minOffS()) : settings.minOffS();
    return new State(output, 0, lockedS, balanceS);
  }

  private static double balance(
      OutputSettings settings, State state, double duty, double elapsedS) {
    double balance = state.balanceS() + (duty - state.output()) * elapsedS;
    return Math.max(-settings.cycleS(), Math.min(settings.cycleS(), balance));
  }

  private static double wanted(OutputSettings settings, State state, double duty) {
    if (!state.on() && state.lockedS() > 0) {
      return 0;
    }
    return switch (settings.drive()) {
      case PROPORTIONAL -> duty;
      case RELAY -> state.on() ? stay(settings, state, duty) : begin(settings, state, duty);
    };
  }

  private static double stay(OutputSettings settings, State state, double duty) {
    return state.sinceS() < settings.minOnS() || state.balanceS() > 0 || duty >= 1 ? 1 : 0;
  }

  /**
   * Turns on once enough is owed: a cycle's d (1 − d) T, but enough for the minimum on time, (1 −
   * d) t_on, and the minimum off time, d t_off.
   */
  private static double begin(OutputSettings settings, State state, double duty) {
    double quantumS =
        Math.max(
            duty * (1 - duty) * settings.cycleS(),
            Math.max((1 - duty) * settings.minOnS(), duty * settings.minOffS()));
    return duty > 0 && state.balanceS() >= quantumS ? 1 : 0;
  }
}
