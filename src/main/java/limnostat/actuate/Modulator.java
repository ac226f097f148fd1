package limnostat.actuate;

/**
 * Converts a demanded duty to the on and off of a relay.
 *
 * <p>Time proportioning by a running balance b = ∫(duty − output) dt of the seconds owed. The
 * output is off until the balance has grown to what one cycle's on time takes, and on until the
 * balance is paid. At a steady duty d this gives the period T exactly: off for (1 − d) T the
 * balance grows to d (1 − d) T, on for d T it falls back to 0. Nothing is lost to rounding, minimum
 * times or an irregular scan: the remainder carries over, even across restarts. What an interlock
 * takes away is not owed: the balance is frozen, so nothing is made up for in a slug. At most one
 * cycle is owed.
 */
public final class Modulator {
  private Modulator() {}

  /**
   * The stored state of one output.
   *
   * @param output what it does now, 0–1
   * @param sinceS for how long it has been on (or off), s
   * @param lockedS for how long it must still stay off, s: minimum off time or rest
   * @param balanceS seconds owed (positive) or given ahead (negative)
   */
  public record State(double output, double sinceS, double lockedS, double balanceS) {
    public boolean on() {
      return output > 0;
    }
  }

  /** Off from now on. What happened before is unknown, so the minimum off time applies. */
  public static State start(OutputSettings settings) {
    return new State(0, 0, settings.minOffS(), 0);
  }

  /**
   * For a new process: off from now on, with the balance kept. The saved state may be older than
   * the end of a longest run, so the rest applies.
   */
  public static State interrupted(OutputSettings settings, State state) {
    double lockedS = Math.max(settings.minOffS(), settings.restS());
    return new State(0, 0, Math.max(lockedS, state.lockedS()), state.balanceS());
  }

  /**
   * One step: first accounts for the time since the last scan under the last output, then sets the
   * output from now on.
   *
   * @param duty demanded duty, 0–1
   * @param held whether an interlock inhibits the output: off at once, whatever the minimum on time
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
   * Turns on once enough is owed: d (1 − d) T for a cycle, but at least (1 − d) t_on for the
   * minimum on time and d t_off for the minimum off time.
   */
  private static double begin(OutputSettings settings, State state, double duty) {
    double quantumS =
        Math.max(
            duty * (1 - duty) * settings.cycleS(),
            Math.max((1 - duty) * settings.minOnS(), duty * settings.minOffS()));
    return duty > 0 && state.balanceS() >= quantumS ? 1 : 0;
  }
}
