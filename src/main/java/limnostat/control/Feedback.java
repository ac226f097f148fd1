package limnostat.control;

import limnostat.control.ControlSettings.PiTuning;

/**
 * PI on ORP around a feed-forward, in duty.
 *
 * @param duty what the law demands, 0–1
 * @param integral integral part
 * @param trim proportional and integral part together
 */
record Feedback(double duty, double integral, double trim) {

  /**
   * u = u_ff + K e + I; dI/dt = K/Ti e + (sat(u) − u)/Ti. Back-calculation with Tt = Ti for PI:
   * Åström and Hägglund (from memory). While an interlock holds the output the integral stands
   * still: nothing can be learned from an output that does not act.
   *
   * @param errorMv setpoint less ORP, mV
   */
  static Feedback step(
      PiTuning tuning,
      double integral,
      double feedForward,
      double errorMv,
      boolean acting,
      double elapsedS) {
    double trim = tuning.gainPerMv() * errorMv + integral;
    double duty = clip(feedForward + trim);
    double next = integral;
    if (acting) {
      double windup = duty - (feedForward + trim);
      double share = Math.min(1, elapsedS / tuning.integralTimeS());
      next += (tuning.gainPerMv() * errorMv + windup) * share;
    }
    return new Feedback(duty, Math.max(-1, Math.min(1, next)), trim);
  }

  /**
   * Without a fresh ORP: the learned demand, less what the feedback last took off it, and never
   * more than the last duty that a good ORP stood behind.
   */
  static Feedback blind(ControlState state, double feedForward) {
    double duty = Math.min(clip(feedForward + Math.min(0, state.trim())), state.lastGoodDuty());
    return new Feedback(duty, state.integral(), state.trim());
  }

  static double clip(double duty) {
    return Math.max(0, Math.min(1, duty));
  }
}
